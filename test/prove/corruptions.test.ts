import { describe, expect, it } from 'vitest';
import type { ViolationKind } from '../../src/prove/index.js';
import type { Timed } from '../support/song.js';
import { bend, cc, kindsOf, library, note, off, on, program } from './events.js';

const map = library([
  'short: {switch: [{program: 40, bank: [1, 2]}, {controller: 20, value: 1}, {note: 0}]}',
  'long: {switch: [{program: 41, bank: [1, 3]}, {controller: 20, value: 2}, {note: 1}]}',
  'far: {switch: [{channel: 3}, {note: 2}]}',
]);

const meant = [
  [500, 60, 'short'],
  [1000, 62, 'long'],
  [2000, 64, 'short'],
  [3000, 65, 'far'],
] as const;

const music = [
  cc(100, 1, 64),
  bend(200, 500),
  ...note(500, 600, 60),
  ...note(1000, 1900, 62),
  ...note(2000, 2100, 64),
  ...note(3000, 3900, 65),
];

const compiled: readonly Timed[] = [
  cc(100, 1, 64),
  cc(100, 1, 64, 2),
  bend(200, 500),
  bend(200, 500, 2),
  cc(480, 0, 1),
  cc(480, 32, 2),
  program(480, 40),
  cc(480, 20, 1),
  on(480, 0, 100),
  on(500, 60),
  off(510, 0),
  off(600, 60),
  cc(980, 0, 1),
  cc(980, 32, 3),
  program(980, 41),
  cc(980, 20, 2),
  on(980, 1, 100),
  on(1000, 62),
  off(1010, 1),
  off(1900, 62),
  cc(1980, 0, 1),
  cc(1980, 32, 2),
  program(1980, 40),
  cc(1980, 20, 1),
  on(1980, 0, 100),
  on(2000, 64),
  off(2010, 0),
  off(2100, 64),
  on(2980, 2, 100, 2),
  on(3000, 65, 80, 2),
  off(3010, 2, 2),
  off(3900, 65, 2),
];

/** The first event at a tick that says what is asked for. */
const at = (tick: number, says: object): Timed => {
  const found = compiled.find((event) => event.tick === tick && matches(event.event, says));
  if (!found) throw new Error(`nothing at ${tick} says ${JSON.stringify(says)}`);
  return found;
};
const matches = (event: object, says: object) =>
  Object.entries(says).every(([name, value]) => new Map(Object.entries(event)).get(name) === value);

const without = (...gone: readonly Timed[]) => compiled.filter((event) => !gone.includes(event));
const changed = (event: Timed, to: object) =>
  compiled.map((one) => (one === event ? { ...one, event: { ...one.event, ...to } } : one));
const moved = (by: number, ...events: readonly Timed[]) =>
  compiled.map((one) => (events.includes(one) ? { ...one, tick: one.tick + by } : one));

const key = at(980, { type: 'noteOn' });
const keyOff = at(1010, { type: 'noteOff' });
const melody = at(1000, { type: 'noteOn' });
const melodyOff = at(1900, { type: 'noteOff' });

/** Each corruption, and the kinds of violation by which it is told. */
const corruptions: readonly (readonly [
  name: string,
  output: readonly Timed[],
  kinds: readonly ViolationKind[],
])[] = [
  ['a switch key is dropped', without(key, keyOff), ['wrong-articulation']],
  ['only its strike is dropped', without(key), ['wrong-articulation', 'release-without-key']],
  ['only its release is dropped, so that it hangs', without(keyOff), ['hanging-key']],
  [
    'a switch is moved past its note',
    moved(25, key, keyOff),
    ['wrong-articulation', 'touched-note', 'other-switch'],
  ],
  [
    'two switches are swapped',
    compiled.map((one) => {
      const { noteNumber } = one.event as { readonly noteNumber?: number };
      const isKey = (noteNumber === 0 || noteNumber === 1) && one.tick < 1500;
      return isKey ? { ...one, event: { ...one.event, noteNumber: 1 - noteNumber } as Timed['event'] } : one;
    }),
    ['other-switch', 'wrong-articulation', 'other-switch', 'wrong-articulation'],
  ],
  ['a switch key is held too long', moved(400, keyOff), ['long-key']],
  ['a switch key has another velocity', changed(key, { velocity: 99 }), ['switch-velocity']],
  [
    'a switch key is changed to another of the map',
    changed(key, { noteNumber: 2 }),
    ['other-switch', 'hanging-key', 'wrong-articulation', 'release-without-key'],
  ],
  [
    'a switch key is changed to one that is none',
    changed(key, { noteNumber: 7 }),
    ['heard-switch', 'wrong-articulation', 'release-without-key'],
  ],
  [
    'a switch is repeated at an earlier note, behind it',
    [...compiled.slice(0, 10), on(500, 1, 100), off(500, 1), ...compiled.slice(10)],
    ['touched-note', 'other-switch'],
  ],
  [
    'a switch is repeated before an earlier note',
    [...compiled.slice(0, 9), on(490, 1, 100), off(490, 1), ...compiled.slice(9)],
    ['other-switch', 'wrong-articulation'],
  ],
  ['a switching controller is dropped', without(at(980, { controllerType: 20 })), ['wrong-articulation']],
  ['a bank is dropped', without(at(980, { controllerType: 32 })), ['other-switch', 'wrong-articulation']],
  ['a program is dropped', without(at(980, { type: 'programChange' })), ['wrong-articulation']],
  [
    'a controller of the music is dropped',
    without(at(100, { channel: 0 })),
    ['missing-event', 'added-event'],
  ],
  ['a copy of a controller is dropped', without(at(100, { channel: 2 })), ['missing-copy']],
  [
    'a copy of a bend is changed',
    changed(at(200, { channel: 2 }), { value: 501 }),
    ['added-event', 'missing-copy'],
  ],
  ['a melody note is dropped', without(melody, melodyOff), ['missing-event', 'missing-event']],
  ['a melody note is moved', moved(5, melody), ['moved-event']],
  ['a melody note is struck harder', changed(melody, { velocity: 81 }), ['changed-event']],
  ['a melody note has another pitch', changed(melody, { noteNumber: 63 }), ['changed-event']],
  [
    'a melody note is on another channel',
    changed(at(3000, { channel: 2 }), { channel: 0 }),
    ['other-switch', 'wrong-articulation', 'changed-event'],
  ],
  ['a note is added', [...compiled, ...note(3500, 3600, 70)], ['heard-switch', 'added-event']],
];

describe('a compiled file', () => {
  it('has nothing wrong', () => {
    expect(kindsOf({ map, meant, input: music, output: compiled, isAsPlayed: true })).toEqual([]);
  });

  it('has nothing wrong where there is no input either', () => {
    expect(kindsOf({ map, meant, output: compiled })).toEqual([]);
  });
});

describe('a corrupted file is told by its violations', () => {
  for (const [name, output, kinds] of corruptions)
    it(name, () => {
      const found = kindsOf({ map, meant, input: music, output, isAsPlayed: true });
      expect(found).toEqual(kinds);
    });
});

describe('without an input', () => {
  const told = new Set<ViolationKind>(['wrong-articulation', 'hanging-key', 'long-key', 'switch-velocity']);
  for (const [name, output, kinds] of corruptions.filter((one) => one[2].some((kind) => told.has(kind))))
    it(`is told as well: ${name}`, () => {
      const expected = kinds.filter((kind) => told.has(kind));
      expect(kindsOf({ map, meant, output })).toEqual(expect.arrayContaining(expected));
    });
});
