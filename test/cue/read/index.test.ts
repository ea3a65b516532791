import { describe, expect, it } from 'vitest';
import { starterMap } from '../../../src/cli/starter-map.js';
import { isCue, readCue } from '../../../src/cue/read/index.js';
import type { DiagnosticCode } from '../../../src/diagnostics/codes.js';

const good = `format: keyslip-cue/1
title: A Test
source: take.mid
output: out/take.mid
seed: 7
defaults:
  timing: {compensate: true, pull: 60%}
parts:
  - name: Horns
    track: Horns
    map: maps/horns.yaml
    timing: {pull: 25%, grid: [1/16, 1/12], roll: 18ms, roll-order: low-high}
    level: -3
    seat: -0.4
    players: 4
    dynamics: {source: shape, start: p, arch: 1.5}
    layers:
      - name: bite
        map: maps/bite.yaml
        on: {marked: [accent], when: {velocity: {from: 100}, pitch: {from: C4}}}
        velocity: {scale: 0.5, add: 20}
        held-at-most: 200ms
        transpose: -12
        level: -6
        timing: {compensate: true}
  - name: Bells
    track: 3
    channel: 10
    map: maps/bells.yaml
    dynamics: {source: keep}
`;

const read = (yaml: string) => readCue(new TextEncoder().encode(yaml), 'test.cue.yaml');

function spoil(from: string, to: string): string {
  const text = good.replace(from, to);
  if (text === good) throw new Error(`nothing to spoil: ${from}`);
  return text;
}

describe('a cue in order', () => {
  const { value: cue, diagnostics } = read(good);

  it('is read without a word, with its defaults filled in', () => {
    expect(diagnostics).toEqual([]);
    expect(cue).toMatchObject({
      title: 'A Test',
      seed: 7,
      preroll: 0,
      controllers: { level: 7, seat: 10 },
      source: { text: 'take.mid' },
      parts: [
        { name: 'Horns', track: 'Horns', level: -3, seat: -0.4, players: 4 },
        { name: 'Bells', track: 3, channel: 10, layers: [], dynamics: { source: 'keep' } },
      ],
    });
    expect(cue?.parts[0]?.dynamics).toEqual({
      source: 'shape',
      start: 'p',
      arch: 1.5,
      velocities: 0.5,
      swell: 0.5,
      decay: 0.7,
    });
  });

  it('takes timing key by key from the part, then from the defaults', () => {
    expect(cue?.parts.map(({ timing }) => timing)).toEqual([
      {
        compensate: true,
        joins: false,
        pull: 0.25,
        grids: [
          { numerator: 1, denominator: 16 },
          { numerator: 1, denominator: 12 },
        ],
        roll: { sdMs: 18, order: 'low-high' },
        seed: 7,
      },
      { compensate: true, joins: false, pull: 0.6, seed: 7 },
    ]);
    const plain = read(spoil('  timing: {compensate: true, pull: 60%}', '  timing: {compensate: false}'));
    expect(plain.value?.parts[1]).not.toHaveProperty('timing');
  });

  it('has layers with the conditions of rules', () => {
    expect(cue?.parts[0]?.layers[0]).toMatchObject({
      name: 'bite',
      map: { text: 'maps/bite.yaml' },
      on: {
        marked: [{ text: 'accent', place: { line: 20 } }],
        when: {
          key: 'all',
          of: [
            { key: 'velocity', range: { from: 100 } },
            { key: 'pitch', range: { from: 60 } },
          ],
        },
      },
      velocity: { scale: 0.5, add: 20 },
      heldAtMost: { unit: 'ms', ms: 200 },
      transpose: -12,
      level: -6,
      timing: { compensate: true, joins: false },
    });
  });

  it('spells pitches as note-60 says', () => {
    const other = read(good.replace('seed: 7', 'seed: 7\nnote-60: C3'));
    const when = other.value?.parts[0]?.layers[0]?.on?.when;
    expect(when).toMatchObject({ of: [{ key: 'velocity' }, { key: 'pitch', range: { from: 72 } }] });
  });
});

/** Every mistake, the text at whose beginning it is found, and what is hinted. */
const cases: readonly (readonly [code: DiagnosticCode, yaml: string, at: string, hint: string])[] = [
  ['yaml-syntax', spoil('parts:', 'parts: ['), '- name: Horns', 'indentation'],
  ['unknown-key', spoil('    seat:', '    seet:'), 'seet:', 'did you mean "seat"?'],
  ['unknown-key', spoil('title:', 'titel:'), 'titel:', 'did you mean "title"?'],
  ['unknown-key', spoil('{source: keep}', '{source: keep, arch: 9e-1}'), '9e-1', 'shape'],
  ['unknown-key', spoil('{source: keep}', '{source: keep, start: ppp}'), 'ppp', 'shape and marks'],
  ['unknown-key', spoil('when: {velocity', 'when: {velosity'), 'velosity', 'did you mean "velocity"?'],
  ['missing-key', spoil('source: take.mid\n', ''), 'format', 'needed'],
  ['missing-key', spoil('    map: maps/bells.yaml\n', ''), 'name: Bells', 'needed'],
  ['unknown-value', spoil('keyslip-cue/1', 'keyslip-cue/2'), 'keyslip-cue/2', 'keyslip-cue/1'],
  ['unknown-value', spoil('source: shape', 'source: shap'), 'shap,', 'did you mean "shape"?'],
  ['wrong-type', spoil('level: -3', 'level: quiet'), 'quiet', 'a number'],
  ['out-of-range', spoil('seat: -0.4', 'seat: -1.4'), '-1.4', 'at least -1'],
  ['bad-percentage', spoil('25%', '25'), '25,', '15%'],
  ['bad-duration', spoil('18ms', '18'), '18,', '18ms'],
  ['bad-duration', spoil('[1/16', '[1-16'), '1-16', '1/16'],
  ['bad-duration', spoil('200ms', '200'), '200', '25ms'],
  ['bad-pitch', spoil('C4', 'H4'), 'H4', 'C3'],
  ['path-outside', spoil('source: take.mid', 'source: ../take.mid'), '../take.mid', 'from the folder'],
  ['path-outside', spoil('output: out/take.mid', 'output: /tmp/take.mid'), '/tmp', 'from the folder'],
  ['path-outside', spoil('maps/bite.yaml', 'maps/../../bite.yaml'), 'maps/../..', 'from the folder'],
  ['same-name', spoil('name: Bells', 'name: "Horns"'), '"Horns"', 'of its own'],
  ['range-reversed', spoil('from: 100', 'from: 100, to: 90'), '{from: 100', 'lower one first'],
];

/** Line and column, from 1, of the first place of a text in another. */
function whereIs(text: string, yaml: string): string {
  const before = yaml.slice(0, yaml.indexOf(text));
  return `${before.split('\n').length}:${before.length - before.lastIndexOf('\n')}`;
}

describe('mistakes in a cue', () => {
  for (const [code, yaml, at, hint] of cases)
    it(`${code} at ${at}`, () => {
      const { value, diagnostics } = read(yaml);
      expect(value).toBeUndefined();
      const found = diagnostics.map(({ code: one, place, hint: said }) => ({
        code: one,
        where: place.kind === 'text' ? `${place.line}:${place.column}` : '',
        hint: said?.includes(hint) ? hint : said,
      }));
      expect(found).toContainEqual({ code, where: whereIs(at, yaml), hint });
    });

  it('are an empty file, too', () => {
    const { value, diagnostics } = read('# nothing\n');
    expect(value).toBeUndefined();
    expect(diagnostics).toMatchObject([{ code: 'map-empty', place: { kind: 'file' } }]);
  });

  it('are told all at once, in the order of the file', () => {
    const yaml = good
      .replace('source: take.mid', 'source: ../take.mid')
      .replace('seat: -0.4', 'seat: 4')
      .replace('name: Bells', 'name: Horns');
    expect(read(yaml).diagnostics.map(({ code }) => code)).toEqual([
      'path-outside',
      'out-of-range',
      'same-name',
    ]);
  });

  it('are refused when there is too much', () => {
    const { diagnostics } = readCue(new Uint8Array(2000), 'a.yaml', { maxBytes: 1024 });
    expect(diagnostics.map(({ code }) => code)).toEqual(['map-too-large']);
  });
});

describe('whether a file is a cue', () => {
  const of = (text: string) => isCue(new TextEncoder().encode(text));

  it('is told by its format', () => {
    expect(of(good)).toBe(true);
    expect(of(`\ufeff# a comment\n\n"format": 'keyslip-cue/1'\n`)).toBe(true);
    expect(of('{format: keyslip-cue/1, parts: []}')).toBe(true);
    expect(of(starterMap)).toBe(false);
    expect(of('title: a cue\nformat: keyslip-map/1\n')).toBe(false);
    expect(of('title: "format: keyslip-cue/1"')).toBe(false);
  });
});
