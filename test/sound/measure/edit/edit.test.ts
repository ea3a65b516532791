import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { writeMeasured } from '../../../../src/sound/measure/index.js';
import { result } from '../result.js';

const map = `# A map with comments.
format: keyslip-map/1
library: Cold Quay   # invented
instrument: Horns
family: brass
note-60: C4
range: [B1, F5]      # as printed

seat:   0.5          # a guess

articulations:
  # the long one
  sustain:
    switch: { note: F0 }   # F, not G
    loudness: controller
    speaks-after: 90ms     # guessed

  staccato: { switch: { note: C0 }, loudness: "velocity" }

rules:
  - use: sustain

dynamics:
  controller: 1
  levels: { p: 34, mf:   72, f: 94 }   # by ear
`;

const edited = (text: string, ...rest: [Parameters<typeof writeMeasured>[3]?]) =>
  writeMeasured(text, result, 4, ...rest);

describe('writing into a map', () => {
  it('changes the values and nothing else', () => {
    const { text, notWritten } = edited(map);
    expect(text).toBe(`# A map with comments.
format: keyslip-map/1
library: Cold Quay   # invented
instrument: Horns
family: brass
note-60: C4
range: [B1, F5]      # as printed

seat:   -0.3          # a guess
width: 0.62
reference-level: -36.1

articulations:
  # the long one
  sustain:
    switch: { note: F0 }   # F, not G
    loudness: controller
    speaks-after: [{ when: { overlaps-previous: true }, is: 140ms }, { when: { pitch: { to: F#3 } }, is: 100ms }, { is: 70ms }]     # guessed

  staccato: { switch: { note: C0 }, loudness: "velocity", speaks-after: 12ms }

rules:
  - use: sustain

dynamics:
  controller: 1
  levels: { p: 33, mf:   72, f: 127, pp: 14, mp: 50 }   # by ear
`);
    // It was not heard, and is not in the map either: nothing is said of it.
    expect(notWritten).toEqual([]);
  });

  it('twice is once', () => {
    const once = edited(map).text;
    expect(edited(once).text).toBe(once);
  });

  it('writes only what is asked for', () => {
    const { text, written } = edited(map, ['seat']);
    expect(text).toBe(map.replace('0.5 ', '-0.3 '));
    expect(written.map(({ path }) => path)).toEqual([['seat']]);
    expect(edited(map, []).text).toBe(map);
  });

  it('spells pitches as the map does', () => {
    expect(writeMeasured(map, result, 3).text).toContain('pitch: { to: F#2 }');
  });

  it('says what the pan controller does, against its middle, where both ends were measured', () => {
    const pan = [-6.46, -2.2, -0.86, -1.0, 4.3].map((dB, at) => ({
      value: [1, 32, 64, 96, 127][at] ?? 0,
      dB,
    }));
    const { text } = writeMeasured(map, { ...result, pan }, 4, ['pan']);
    // What lies on the wrong side of the middle is taken for the middle.
    expect(parse(text).pan).toEqual({ left: -5.6, 'half-left': -1.3, 'half-right': 0, right: 5.2 });
    expect(text.replace(/^pan: .*\n/mu, '')).toBe(map);
    const still = pan.map(({ value }) => ({ value, dB: 0.1 * Math.sin(value) }));
    for (const less of [pan.slice(0, 2), pan.filter(({ value }) => value !== 64), still])
      expect(writeMeasured(map, { ...result, pan: less }, 4, ['pan']).text).toBe(map);
  });

  it('puts a new key behind the last of an articulation, and keeps line ends', () => {
    const block = map.replace('    speaks-after: 90ms     # guessed\n', '').replaceAll('\n', '\r\n');
    const { text } = edited(block);
    expect(text).toContain('    loudness: controller\r\n    speaks-after: [');
    expect(text.replaceAll('\r\n', '')).not.toContain('\n');
    expect(text.split('\r\n').length).toBe(block.split('\r\n').length + 3);
  });

  it('replaces steps that stand in a block, and fills an articulation that has nothing', () => {
    const steps = map
      .replace(
        'speaks-after: 90ms     # guessed',
        'speaks-after:\n      - when: { velocity: { to: 60 } }\n        is: 120ms\n      - is: 80ms',
      )
      .replace('  staccato: { switch: { note: C0 }, loudness: "velocity" }', '  staccato:');
    const { text, notWritten } = edited(steps);
    expect(notWritten).toEqual([]);
    const data = parse(text);
    expect(data.articulations.sustain['speaks-after']).toHaveLength(3);
    expect(data.articulations.staccato).toEqual({ 'speaks-after': '12ms' });
    expect(text).toContain('# the long one');
  });

  it('tells what it cannot write, and why', () => {
    const shared = map
      .replace('  sustain:\n', '  sustain: &long\n')
      .replace(/ {2}staccato: .*/u, '  staccato: *long')
      .replace(/dynamics:[\s\S]*/u, '');
    const { text, notWritten } = edited(shared);
    expect(parse(text).articulations.staccato).toEqual(parse(text).articulations.sustain);
    const why = new Map(notWritten.map((one) => [one.path.join(' '), one.why]));
    expect(why.get('articulations staccato speaks-after')).toContain('alias');
    expect(why.get('dynamics levels pp')).toContain('does not have the place');
    // To change it would change the articulation that the alias makes of it.
    expect(why.get('articulations sustain speaks-after')).toContain('something else');
  });

  it('leaves a text alone that is no map', () => {
    for (const text of ['', '- a\n- b\n', 'just: [', 'a scalar']) expect(edited(text).text).toBe(text);
  });

  // A map on a base has articulations of its own only where it says so.
  const withArticulations = readdirSync('maps').filter(
    (name) => name.endsWith('.yaml') && 'articulations' in parse(readFileSync(join('maps', name), 'utf8')),
  );
  it.each(withArticulations)('%s keeps every other value', (name) => {
    const text = readFileSync(join('maps', name), 'utf8');
    const before = parse(text);
    const names = Object.keys(before.articulations);
    const articulations = Object.fromEntries(
      names.map((one, index) => [one, { ...Object.values(result.articulations)[index % 2] }]),
    ) as typeof result.articulations;
    const after = writeMeasured(text, { ...result, articulations }, 4);
    const comments = (of: string) =>
      of.split('\n').flatMap((line) => (line.includes('#') ? line.slice(line.indexOf(' #')) : []));
    for (const comment of comments(text).filter((one) => one.startsWith(' # ')))
      expect(after.text).toContain(comment);
    const data = parse(after.text);
    for (const one of names) {
      expect(data.articulations[one]['speaks-after']).toBeDefined();
      expect({ ...data.articulations[one], 'speaks-after': 0 }).toEqual({
        ...before.articulations[one],
        'speaks-after': 0,
      });
    }
    expect([data.seat, data.width, data['reference-level']]).toEqual([-0.3, 0.62, -36.1]);
    expect(data.rules).toEqual(before.rules);
    expect(Object.keys(data).filter((key) => key in before)).toEqual(Object.keys(before));
  });
});
