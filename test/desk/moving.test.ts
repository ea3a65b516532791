import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readCue } from '../../src/cue/index.js';
import { boundsIn, levelsIn, movedFiles } from '../../src/desk/index.js';

const text = `# a map
rules:
  # the shortest
  - when: { held: { below: 130ms } } # by ear
    use: short
  - {when: {held: {from: 0.5s}, pitch: {to: G3}}, use: "long"}
steadiness: 15%   # a little
`;
const file = { name: 'map.yaml', text };
const bounds = boundsIn([file]);
const [held, from, pitch, steady] = bounds.map(({ id }) => id);
const move = (moved: Readonly<Record<string, string>>) =>
  movedFiles(
    [file],
    bounds,
    Object.entries(moved).map(([id, value]) => ({ id, value })),
  );

describe('moved values', () => {
  it('stand in the text, which is otherwise as it was', () => {
    const { files, refused } = move({
      [held ?? '']: '95',
      [from ?? '']: '0.25',
      [pitch ?? '']: 'A3',
      [steady ?? '']: '5',
    });
    expect(refused).toEqual([]);
    expect(files).toEqual([
      {
        name: 'map.yaml',
        text: text.replace('130ms', '95ms').replace('0.5s', '0.25s').replace('G3', 'A3').replace('15%', '5%'),
      },
    ]);
  });

  it('change no file where they are what they were', () => {
    expect(move({ [held ?? '']: '130' })).toEqual({ files: [], refused: [] });
    expect(move({})).toEqual({ files: [], refused: [] });
  });

  it.each([
    ['-1', 'out-of-reach'],
    ['0', 'out-of-reach'],
    ['100000', 'out-of-reach'],
    ['1e2', 'out-of-reach'],
    ['', 'out-of-reach'],
    ['95ms', 'out-of-reach'],
    ['95 # x\nfoo: 1', 'out-of-reach'],
    ['NaN', 'out-of-reach'],
  ])('are not %j', (value, why) => {
    expect(move({ [held ?? '']: value })).toEqual({ files: [], refused: [{ id: held, why }] });
  });

  it('are refused where they are not known, and the others are moved', () => {
    const { files, refused } = move({
      'map.yaml#rules.9': '5',
      '../../etc/passwd#a': '5',
      [steady ?? '']: '5',
    });
    expect(refused.map(({ why }) => why)).toEqual(['unknown', 'unknown']);
    expect(files).toHaveLength(1);
  });

  it('are refused where an anchor would change something else too', () => {
    const shared = {
      name: 'map.yaml',
      text: 'rules:\n  - {when: {held: &h {below: 130ms}}, use: a}\n  - {when: {pace: *h}, use: b}\n',
    };
    const [first] = boundsIn([shared]);
    const { files, refused } = movedFiles([shared], boundsIn([shared]), [
      { id: first?.id ?? '', value: '90' },
    ]);
    expect({ files, refused: refused.map(({ id }) => id) }).toEqual({ files: [], refused: [first?.id] });
  });

  it('give what was moved, and nothing else, whatever is moved', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1000 }), fc.integer({ min: 0, max: 100 }), (ms, share) => {
        const { files } = move({ [held ?? '']: `${ms}`, [steady ?? '']: `${share}` });
        const after = parse(files[0]?.text ?? text) as { rules: unknown[] };
        const before = parse(text) as { rules: [{ when: { held: object } }]; steadiness: string };
        before.rules[0].when.held = { below: `${ms}ms` };
        before.steadiness = `${share}%`;
        expect(after).toEqual(before);
      }),
      { numRuns: 40 },
    );
  });
});

describe('levels', () => {
  const cue = `format: keyslip-cue/1
source: take.mid
output: out.mid
parts:
  - {name: Horns, track: 1, map: horns.yaml, level: -4} # the horns
  - name: Violins
    track: 2
    map: strings.yaml # theirs
`;
  const { value } = readCue(new TextEncoder().encode(cue), 'night.cue.yaml');
  const levels = value ? levelsIn(value, 'night.cue.yaml') : [];

  it('are 0 dB where a part says none', () => {
    expect(levels.map(({ words, value: now }) => [words, now])).toEqual([
      ['Horns: level', '-4'],
      ['Violins: level', '0'],
    ]);
  });

  it('are put where they belong, as numbers', () => {
    const { files } = movedFiles(
      [{ name: 'night.cue.yaml', text: cue }],
      levels,
      levels.map(({ id }, index) => ({ id, value: index === 0 ? '-6.5' : '3' })),
    );
    expect(files[0]?.text).toBe(
      cue
        .replace('level: -4', 'level: -6.5')
        .replace('strings.yaml # theirs\n', 'strings.yaml # theirs\n    level: 3\n'),
    );
  });
});
