import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readMap } from '../../../src/map/read/index.js';
import { basesIn } from '../../support/bases.js';

const good = `format: keyslip-map/1
library: Test Library
instrument: Test Horn
family: brass
note-60: C4
range: [C2, C6]
articulations:
  short:
    switch: {note: C0}
  long:
    switch: {note: D0}
rules:
  - when: {held: {below: 130ms}}
    use: short
  - use: long
`;

const read = (yaml: string) => readMap(new TextEncoder().encode(yaml), 'horn.yaml');

/** The diagnostics of the good map with changes: `code line`. */
function spoilt(...changes: readonly (readonly [from: string, to: string])[]): readonly string[] {
  const yaml = changes.reduce((text, [from, to]) => {
    if (!text.includes(from)) throw new Error(`nothing to spoil: ${from}`);
    return text.replace(from, to);
  }, good);
  return read(yaml).diagnostics.map(({ code, place }) =>
    `${code} ${place.kind === 'text' ? place.line : ''}`.trim(),
  );
}

describe('a map that is read', () => {
  it('has every default filled in', () => {
    const { value } = read(good);
    expect(value).toMatchObject({
      middleC: 4,
      range: { low: 36, high: 84 },
      switching: {
        notes: 'latching',
        lead: { unit: 'ms', ms: 20 },
        tap: { unit: 'ms', ms: 30 },
        velocity: 100,
        restate: {},
      },
      chords: 'top',
      chordWindow: { unit: 'ms', ms: 80 },
      transpose: 0,
      pedal: 'ignored',
      bases: [],
      steadiness: 0,
      examples: [],
    });
    expect(value?.articulations.get('short')).toMatchObject({
      means: [],
      switch: [{ kind: 'note', key: 12 }],
      loudness: 'velocity',
      speaksAfter: [{ is: { unit: 'ms', ms: 0 } }],
      place: { line: 8, column: 3 },
    });
    expect(value?.rules).toMatchObject([
      { index: 0, place: { line: 13 } },
      { index: 1, place: { line: 15 } },
    ]);
    expect(value).not.toHaveProperty('players');
    expect(value).not.toHaveProperty('dynamics');
  });

  it('has every key taken over', () => {
    const { value, diagnostics } = read(
      `${good.replace('range:', 'players: 6\nchords: each\nchord-window: 1/64\nsteadiness: 12.5%\nrange:')}`
        .replace(
          'switch: {note: C0}',
          'means: [stacc., Long]\n    switch: [{program: 59, bank: [1, 2]}, {controller: 20, value: 9, aspect: mute}, {channel: 16}]\n    joins: {overlap: 40ms}\n    loudness: controller',
        )
        .replace(
          'rules:',
          'switching: {notes: momentary, lead: 1s, tap: 1/32, velocity: 1, restate: {after-rest: 2s, every-bars: 8}}\ndynamics: {controller: 1, levels: {pp: 14, ff: 118}}\nrules:',
        )
        .concat(
          'examples:\n  - {notes: [{pitch: 60, held: 1/4, pace: 1s, velocity: 3, marked: [ten., short]}], expect: [long], bpm: 60}\n',
        ),
    );
    expect(diagnostics).toEqual([]);
    expect(value).toMatchObject({
      players: 6,
      chords: 'each',
      chordWindow: { unit: 'whole', numerator: 1, denominator: 64 },
      steadiness: 0.125,
      switching: {
        notes: 'momentary',
        lead: { ms: 1000 },
        tap: { denominator: 32 },
        velocity: 1,
        restate: { afterRest: { ms: 2000 }, everyBars: 8 },
      },
      examples: [
        {
          bpm: 60,
          expect: ['long'],
          notes: [{ pitch: 60, pace: { ms: 1000 }, velocity: 3, marked: ['tenuto', 'short'] }],
        },
      ],
    });
    expect(value?.dynamics?.levels).toEqual(
      new Map([
        ['pp', 14],
        ['ff', 118],
      ]),
    );
    expect(value?.articulations.get('short')).toMatchObject({
      // A mark that is an articulation's name stays that name.
      means: ['staccato', 'long'],
      switch: [
        { kind: 'program', program: 59, bank: [1, 2] },
        { kind: 'controller', controller: 20, value: 9, aspect: 'mute' },
        { kind: 'channel', channel: 15 },
      ],
      joins: { overlap: [{ is: { ms: 40 } }] },
      loudness: 'controller',
    });
  });

  it('has the conditions of its rules, all of which hold together', () => {
    const when = (text: string) => read(good.replace('{held: {below: 130ms}}', text)).value?.rules[0]?.when;
    expect(when('{pitch: {from: C2, to: 60}, overlaps-next: false}')).toEqual({
      key: 'all',
      of: [
        { key: 'pitch', range: { from: 36, to: 60 } },
        { key: 'overlaps-next', is: false },
      ],
    });
    expect(when('{run: {notes: 3, pace: {from: 1/32, below: 120ms}}}')).toEqual({
      key: 'run',
      notes: 3,
      pace: { from: { unit: 'whole', numerator: 1, denominator: 32 }, below: { unit: 'ms', ms: 120 } },
    });
    expect(when('{any: [{leap: {from: 7}}, {not: {chord: {to: 1}}}]}')).toEqual({
      key: 'any',
      of: [
        { key: 'leap', range: { from: 7 } },
        { key: 'not', of: { key: 'chord', range: { to: 1 } } },
      ],
    });
  });

  it('spells its pitches as note-60 says', () => {
    const low = (note60: string) =>
      read(
        good
          .replace('note-60: C4', `note-60: ${note60}`)
          .replace('C2, C6', 'C3, A5')
          .replace('C0', 'C1')
          .replace('D0', 'D1'),
      ).value?.range;
    // MIDI 1.0: middle C is 60 and the A above it, 440 Hz, is 69.
    expect(low('C3')).toEqual({ low: 60, high: 93 });
    expect(low('C4')).toEqual({ low: 48, high: 81 });
    expect(low('C5')).toEqual({ low: 36, high: 69 });
  });

  it('is in order where it is one of this project', () => {
    const files = readdirSync('maps').filter((name) => name.endsWith('.yaml'));
    expect(files.length).toBeGreaterThan(5);
    for (const name of files)
      expect(
        readMap(new Uint8Array(readFileSync(`maps/${name}`)), name, { bases: basesIn('maps') }),
      ).toMatchObject({
        value: {},
        diagnostics: [],
      });
  });
});

describe('what is wrong with a map', () => {
  it('is told all at once: the shape of one thing does not hide the meaning of another', () => {
    expect(
      spoilt(
        ['family: brass', 'family: bras'],
        ['{note: D0}', '{note: C0}'],
        ['below: 130ms', 'below: 130'],
        ['use: long', 'use: lang'],
      ),
    ).toEqual(['unknown-value 4', 'same-switch 10', 'bad-duration 13', 'unknown-articulation 15']);
    expect(
      spoilt(
        ['library: Test Library\n', ''],
        ['range: [C2, C6]', 'range: [C6, C2]'],
        ['  - use: long\n', ''],
      ),
    ).toEqual(['missing-key 1', 'range-reversed 5', 'no-last-rule 12']);
    expect(spoilt(['family: brass', 'family: brass\nfamily: bras'], ['use: short', 'use: shrot'])).toEqual([
      'yaml-duplicate-key 5',
      'unknown-articulation 15',
    ]);
  });

  it('does not make other things seem wrong', () => {
    // A rule whose condition is misspelt is not one without conditions.
    expect(spoilt(['when:', 'wen:'])).toEqual(['unknown-key 13']);
    expect(spoilt(['held:', 'hold:'])).toEqual(['unknown-key 13']);
    expect(spoilt(['  - use: long\n', '  - use: long\n    marked: 3\n'])).toEqual([
      'no-last-rule 15',
      'wrong-type 16',
    ]);
    // Switches that cannot be told are not the same, and leave nothing behind.
    expect(
      spoilt(['switch: {note: C0}', 'swich: {note: C0}'], ['switch: {note: D0}', 'swich: {note: D0}']),
    ).toEqual(['unknown-key 9', 'unknown-key 11']);
    expect(spoilt(['{note: C0}', '{note: C99}'], ['{note: D0}', '{note: D99}'])).toEqual([
      'bad-pitch 9',
      'bad-pitch 11',
    ]);
    expect(spoilt(['{note: C0}', '{controller: 1}'])).toEqual(['bad-switch 9']);
    // Without note-60 or the range nothing can lie in it; names of articulations that are badly made are still names.
    expect(spoilt(['note-60: C4', 'note-60: C6'])).toEqual(['unknown-value 5']);
    expect(spoilt(['[C2, C6]', '[C2, H6]'], ['{note: D0}', '{note: D3}'])).toEqual(['bad-pitch 6']);
    expect(spoilt(['  short:', '  Short One:'], ['use: short', 'use: Short One'])).toEqual(['bad-name 8']);
    expect(spoilt(['articulations:', 'articulation:'])).toEqual(['missing-key 1', 'unknown-key 7']);
    expect(spoilt(['rules:', 'ruls:'])).toEqual(['missing-key 1', 'unknown-key 12']);
    expect(spoilt(['range: [C2, C6]', 'range: {}'], ['rules:', 'examples: 4\nrules:'])).toEqual([
      'wrong-type 6',
      'wrong-type 12',
    ]);
  });

  it('is one thing in one place, whatever kind of value stands there', () => {
    const places = [
      'Test Library',
      'brass',
      'C4',
      '[C2, C6]',
      '{note: C0}',
      'C0',
      '{held: {below: 130ms}}',
      '{below: 130ms}',
      '130ms',
    ] as const;
    for (const place of places)
      for (const value of ['null', '7.5', '[]', '{}', 'true', '"\u{1f3ba}"', '-1']) {
        const lines = spoilt([place, value]);
        expect(lines.length, `${place} → ${value}: ${lines.join(', ')}`).toBeLessThanOrEqual(1);
      }
  });
});
