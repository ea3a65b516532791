import { describe, expect, it } from 'vitest';
import { compareArticulations } from '../../src/compare/index.js';
import { articulationsText } from '../../src/report/comparison-text.js';
import { mapOf } from '../support/map.js';

const map = (articulations: string) => mapOf(`articulations:\n${articulations}rules:\n  - use: plain\n`);
const plain = '  plain: {switch: {note: C0}}\n';

describe('the articulations of two maps', () => {
  it('are told where only one map has them', () => {
    const a = map(`${plain}  short: {switch: {note: D0}}\n`);
    const b = map(`  long: {switch: {note: D0}}\n${plain}`);
    expect(compareArticulations(a, b)).toEqual({ onlyA: ['short'], onlyB: ['long'], reswitched: [] });
  });

  for (const [what, from, to] of [
    ['key', '{note: D0}', '{note: E0}'],
    ['kind of message', '{note: D0}', '{controller: 20, value: 14}'],
    ['controller', '{controller: 20, value: 1}', '{controller: 21, value: 1}'],
    ['value', '{controller: 20, value: 1}', '{controller: 20, value: 2}'],
    ['program', '{program: 5}', '{program: 6}'],
    ['bank', '{program: 5}', '{program: 5, bank: [0, 1]}'],
    ['channel', '{channel: 5}', '{channel: 6}'],
    ['aspect', '{note: D0, aspect: mute}', '{note: D0, aspect: bow}'],
    ['order', '[{note: D0}, {controller: 20, value: 1}]', '[{controller: 20, value: 1}, {note: D0}]'],
  ] as const)
    it(`are switched differently by another ${what}`, () => {
      const one = (message: string) =>
        mapOf(`articulations:\n  only: {switch: ${message}}\nrules:\n  - use: only\n`);
      const { reswitched } = compareArticulations(one(from), one(to));
      expect(reswitched.map(({ articulation }) => articulation)).toEqual(['only']);
      expect(compareArticulations(one(from), one(from)).reswitched).toEqual([]);
    });

  it('are told to go out shifted, and to last as long as the pedal, where only one map says so', () => {
    const a = map(plain);
    const b = mapOf(`transpose: -12\npedal: lengthens\narticulations:\n${plain}rules:\n  - use: plain\n`);
    const found = compareArticulations(a, b);
    expect(found).toMatchObject({
      transpose: { from: 0, to: -12 },
      pedal: { from: 'ignored', to: 'lengthens' },
    });
    expect(articulationsText(found, a, b).split('\n')).toEqual([
      'Sent over what is written: 0 → -12 semitones',
      'The sustain pedal: ignored → lengthens',
    ]);
    expect(articulationsText(compareArticulations(b, b), b, b)).toBe('');
  });

  it('are switched alike whatever the keys are called', () => {
    const called = (yaml: string) =>
      mapOf(`range: [36, 96]\narticulations:\n  plain: {switch: ${yaml}}\nrules:\n  - use: plain\n`);
    expect(compareArticulations(called('{note: C0}'), called('{note: 12}')).reswitched).toEqual([]);
  });
});
