import fc from 'fast-check';
import { stringify } from 'yaml';
import type { ArticulationMap } from '../../src/map/types.js';
import { readWhole } from './map.js';
import type { TestNote } from './song.js';

/** Every way in which maps switch. */
export const methods = [
  'latching',
  'momentary',
  'controller',
  'program',
  'channel',
  'aspects',
  'mixed',
] as const;
export type Method = (typeof methods)[number];

const names = ['one', 'two', 'three', 'four', 'five'] as const;

/** The switch of the articulation with a number, for each method. Keys lie below the range, which begins at 36. */
function switchFor(method: Method, index: number, spice: number): unknown {
  switch (method) {
    case 'latching':
      return { note: index };
    case 'momentary':
      return index === 0 ? undefined : { note: index };
    case 'controller':
      return { controller: 20, value: index * 25 };
    case 'program':
      return spice % 2 ? { program: index * 3 } : { program: index * 3, bank: [index, spice % 128] };
    case 'channel':
      return { channel: 5 + index };
    case 'aspects':
      return [{ note: 10 + (index % 2), aspect: 'mute' }, { note: Math.floor(index / 2) }];
    case 'mixed':
      return [
        { program: 40 + index },
        { controller: 20, value: 10 * index },
        { note: index },
        { controller: 21, value: index, aspect: 'colour' },
      ];
  }
}

const duration = fc.oneof(
  fc.integer({ min: 1, max: 400 }).map((ms) => `${ms}ms`),
  fc.constantFrom('1/64', '1/32', '1/16', '1/12', '1/8'),
);

const condition = fc.oneof(
  fc.integer({ min: 40, max: 600 }).map((ms) => ({ held: { below: `${ms}ms` } })),
  fc.integer({ min: 40, max: 600 }).map((ms) => ({ held: { from: `${ms}ms` } })),
  fc.constantFrom('1/16', '1/8', '1/4').map((below) => ({ pace: { below } })),
  fc.boolean().map((is) => ({ 'overlaps-next': is })),
  fc.boolean().map((is) => ({ 'overlaps-previous': is })),
  fc.boolean().map((is) => ({ 'repeats-previous': is })),
  fc.integer({ min: 1, max: 127 }).map((from) => ({ velocity: { from } })),
  fc.integer({ min: 36, max: 90 }).map((to) => ({ pitch: { to } })),
  fc.integer({ min: 0, max: 12 }).map((from) => ({ leap: { from } })),
  fc.integer({ min: 1, max: 3 }).map((from) => ({ chord: { from } })),
  fc.integer({ min: 20, max: 900 }).map((ms) => ({ 'rest-before': { from: `${ms}ms` } })),
  fc
    .record({
      notes: fc.integer({ min: 2, max: 4 }),
      pace: fc.constantFrom({ below: '1/8' }, { below: '200ms' }),
    })
    .map((run) => ({ run })),
);

const deeper = fc.oneof(
  condition,
  fc.array(condition, { minLength: 1, maxLength: 3 }).map((any) => ({ any })),
  fc.array(condition, { minLength: 1, maxLength: 2 }).map((all) => ({ all })),
  condition.map((not) => ({ not })),
);

/** The YAML of a random map that is in order, of a given method. */
export function mapYaml(method: Method): fc.Arbitrary<string> {
  return fc
    .record({
      count: fc.integer({ min: 2, max: names.length }),
      spice: fc.nat(127),
      lead: duration,
      tap: duration,
      steadiness: fc.constantFrom('0%', '10%', '25%'),
      velocity: fc.integer({ min: 1, max: 127 }),
      restate: fc.constantFrom(
        undefined,
        { 'after-rest': '300ms' },
        { 'every-bars': 2 },
        { 'after-rest': '1/4', 'every-bars': 1 },
      ),
      rules: fc.array(fc.record({ when: deeper, pick: fc.nat(100) }), { maxLength: 5 }),
      last: fc.nat(100),
    })
    .map(({ count, spice, lead, tap, steadiness, velocity, restate, rules, last }) => {
      const used = names.slice(0, count);
      const notes = method === 'momentary' ? 'momentary' : 'latching';
      return stringify({
        format: 'keyslip-map/1',
        library: 'Random Library',
        instrument: 'Random Instrument',
        family: 'other',
        'note-60': 'C4',
        range: [36, 108],
        switching: { notes, lead, tap, velocity, ...(restate ? { restate } : {}) },
        ...(method === 'channel' ? { chords: 'each' } : {}),
        articulations: Object.fromEntries(
          used.map((name, index) => {
            const message = switchFor(method, index, spice);
            return [name, message === undefined ? { loudness: 'velocity' } : { switch: message }];
          }),
        ),
        steadiness,
        rules: [
          ...rules.map(({ when, pick }) => ({ when, use: used[pick % count] })),
          { use: used[last % count] },
        ],
      });
    });
}

/** A random map that is in order, of a given method. */
export function mapOfMethod(method: Method): fc.Arbitrary<ArticulationMap> {
  return mapYaml(method).map(readWhole);
}

/** A random line: single notes, chords, rests, overlaps, repeats, notes without length; ppq 480. */
export const randomLine: fc.Arbitrary<readonly TestNote[]> = fc
  .array(
    fc.record({
      step: fc.oneof(
        fc.integer({ min: 0, max: 60 }),
        fc.integer({ min: 60, max: 480 }),
        fc.integer({ min: 480, max: 4000 }),
      ),
      length: fc.oneof(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 40, max: 700 })),
      pitch: fc.integer({ min: 36, max: 96 }),
      velocity: fc.integer({ min: 1, max: 127 }),
    }),
    { minLength: 1, maxLength: 40 },
  )
  .map((steps) => {
    let tick = 0;
    const busyUntil = new Map<number, number>();
    return steps.flatMap(({ step, length, pitch, velocity }, index) => {
      tick += index === 0 ? step % 50 : step;
      // A key that is still down cannot be struck again.
      if ((busyUntil.get(pitch) ?? -1) >= tick) return [];
      busyUntil.set(pitch, tick + length);
      return [{ tick, end: tick + length, pitch, velocity }];
    });
  });
