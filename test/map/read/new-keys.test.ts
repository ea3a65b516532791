import { describe, expect, it } from 'vitest';
import { isHeldKey } from '../../../src/map/switch-messages/index.js';
import { mapOf, readWhole } from '../../support/map.js';
import { diagnosed } from './diagnosed.js';

const rules = 'rules:\n  - use: a\n';

// Codes here: [key-taken] [key-outside]; in base.test.ts: [base-chain].
describe('what an articulation sends', () => {
  it('has a key of its own, velocities of its own, and joins in steps', () => {
    const map = mapOf(`articulations:
  a: {key: D2, velocity: {into: [1, 40]}, joins: {overlap: [{when: {pace: {below: 1/8}}, is: 20ms}, {is: 40ms}]}}
  b: {switch: {note: C0}, joins: {overlap: 30ms}}
${rules}`);
    expect(map.articulations.get('a')).toMatchObject({
      key: 38,
      velocity: { into: [1, 40] },
      joins: { overlap: [{ when: { key: 'pace' }, is: { ms: 20 } }, { is: { ms: 40 } }] },
    });
    expect(map.articulations.get('b')?.joins).toEqual({ overlap: [{ is: { unit: 'ms', ms: 30 } }] });
    expect(map.articulations.get('b')).not.toHaveProperty('key');
  });

  it('is told where steps leave notes out, or velocities run down', () => {
    const joins = '{overlap: [{when: {velocity: {to: 9}}, is: 20ms}]}';
    expect(diagnosed(`articulations:\n  a: {switch: {note: C0}, joins: ${joins}}\n${rules}`)).toEqual([
      'no-last-rule: the last step of joins.overlap has a when, so that it leaves some notes out',
    ]);
    expect(diagnosed(`articulations:\n  a: {velocity: {into: [40, 1]}}\n${rules}`)).toEqual([
      'range-reversed: the velocities begin at 40 and end below it, at 1',
    ]);
  });

  it('goes out on no switch key (key-taken), and inside the range that is sent (key-outside)', () => {
    const keys = (key: string, more = '') =>
      diagnosed(`${more}articulations:\n  a: {key: ${key}}\n  b: {switch: {note: C0}}\n${rules}`);
    expect(keys('C2')).toEqual([]);
    expect(keys('C0')).toEqual(['key-taken: the notes of "a" go out on C0, which is the switch of "b"']);
    expect(keys('B1')).toEqual(['key-outside: the notes of "a" go out on B1, outside the range, C2 to C8']);
    expect(keys('B1', 'transpose: -12\n')).toEqual([]);
  });

  it('is told apart by its key, or by velocities that do not meet (same-switch)', () => {
    const both = (a: string, b: string) => diagnosed(`articulations:\n  a: ${a}\n  b: ${b}\n${rules}`);
    expect(both('{key: C3}', '{key: D3}')).toEqual([]);
    expect(both('{key: C3}', '{key: C3}')).toEqual(['same-switch: "b" goes out on the same key as "a"']);
    expect(both('{velocity: {into: [1, 50]}}', '{velocity: {into: [51, 127]}}')).toEqual([]);
    expect(both('{velocity: {into: [1, 51]}}', '{velocity: {into: [51, 127]}}')).toEqual([
      'same-switch: "b" has velocities in common with "a"',
    ]);
    expect(both('{velocity: {into: [1, 50]}}', '{}')).toEqual([
      'same-switch: "b" has velocities in common with "a"',
    ]);
  });
});

describe('the library as a whole', () => {
  it('is transposed, and its switches lie outside the range that is sent', () => {
    expect(mapOf(`articulations: {a: {}}\n${rules}`).transpose).toBe(0);
    const shifted = `transpose: -12\narticulations:\n  a: {switch: {note: C1}}\n${rules}`;
    expect(diagnosed(shifted)[0]).toMatch(
      /^switch-in-range: the switch C1 of "a" .* C1 to C7 as it is sent, 12 semitones lower than written$/u,
    );
    expect(diagnosed(shifted.replace('C1', 'C8'))).toEqual([]);
  });

  it('has no range that would leave the keys of MIDI once it is shifted (beyond-keys)', () => {
    const shifted = (semitones: number, range: string) =>
      diagnosed(`transpose: ${semitones}\nrange: ${range}\narticulations: {a: {}}\n${rules}`);
    expect(shifted(-12, '[C-1, G3]')).toEqual([
      'beyond-keys: C-1 would be sent 12 semitones lower, where MIDI has no key',
    ]);
    expect(shifted(12, '[C4, G9]')).toEqual([
      'beyond-keys: G9 would be sent 12 semitones higher, where MIDI has no key',
    ]);
    expect(shifted(-12, '[C0, G3]')).toEqual([]);
    expect(shifted(12, '[C4, G8]')).toEqual([]);
  });

  it('rings on under the pedal where it is a keyboard or plucked, unless it says otherwise', () => {
    const ofFamily = (family: string) =>
      readWhole(
        `format: keyslip-map/1\nlibrary: L\ninstrument: I\nfamily: ${family}\nnote-60: C4\nrange: [C2, C8]\narticulations: {a: {}}\n${rules}`,
      ).pedal;
    expect(['keyboard', 'plucked', 'strings', 'percussion'].map(ofFamily)).toEqual([
      ...['lengthens', 'lengthens', 'ignored', 'ignored'],
    ]);
    expect(mapOf(`articulations: {a: {}}\n${rules}`).pedal).toBe('ignored');
    expect(mapOf(`pedal: lengthens\narticulations: {a: {}}\n${rules}`).pedal).toBe('lengthens');
  });
});

describe('a switch key', () => {
  it('is held or latches as its message says, else as the map does', () => {
    const map = mapOf(`switching: {notes: momentary}
articulations:
  a: {switch: [{note: C0}, {note: D0, aspect: x, held: false}, {note: E0, aspect: y, held: true}]}
${rules}`);
    const keys = map.articulations.get('a')?.switch ?? [];
    expect(keys).toMatchObject([{ key: 12 }, { key: 14, held: false }, { key: 16, held: true }]);
    expect(keys.map((key) => key.kind === 'note' && isHeldKey(key, map.switching))).toEqual([
      true,
      false,
      true,
    ]);
    expect(keys.map((key) => key.kind === 'note' && isHeldKey(key, { notes: 'latching' }))).toEqual([
      ...[false, false, true],
    ]);
    expect(diagnosed(`articulations:\n  a: {switch: {program: 1, held: true}}\n${rules}`)).toEqual([
      'bad-switch: articulations.a.switch has "held" without "note"',
    ]);
  });
});

describe('means', () => {
  // M2-123-UM 1.0, table of class 11 (staccatos and shorts): subclass 5 is spiccato.
  it('takes a class and subclass of M2-123 by their printed names', () => {
    const means = (text: string) => diagnosed(`articulations:\n  a: {means: [${text}]}\n${rules}`);
    expect(means('staccatos-and-shorts/spiccato')).toEqual([]);
    expect(means('staccatos-and-shorts/spicato')).toEqual([
      'unknown-mark: "staccatos-and-shorts/spicato" is no class and subclass of M2-123',
    ]);
    expect(
      mapOf(`articulations: {a: {means: [Staccatos-and-shorts/Spiccato, ten.]}}\n${rules}`).articulations.get(
        'a',
      )?.means,
    ).toEqual(['staccatos-and-shorts/spiccato', 'tenuto']);
  });
});
