import fc from 'fast-check';
import type { MidiEvent } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { proofOf } from '../../src/api/proof.js';
import { compile, compileParts, type Job } from '../../src/compile/index.js';
import { withPreroll } from '../../src/compile/retime/shift.js';
import type { ArticulationMap } from '../../src/map/types.js';
import { readMidi } from '../../src/midi/read/index.js';
import type { Proof } from '../../src/prove/index.js';
import { asPlayed, type TimingOptions } from '../../src/timing/options.js';
import { mapOfMethod, methods, randomLine } from '../support/arbitrary.js';
import { decisionsIn } from '../support/decided.js';
import { draws } from '../support/draws.js';
import { mapOf } from '../support/map.js';
import { controllerAt, songOf, type TestNote, tempoAt, trackOf } from '../support/song.js';

const others = [tempoAt(0, 100), tempoAt(2000, 140), controllerAt(10, 1, 60), controllerAt(500, 64, 127)];

function proved(
  map: ArticulationMap,
  line: readonly TestNote[],
  timing?: Partial<TimingOptions>,
  preroll = 0,
): Proof {
  const original = songOf([trackOf(line, others)]);
  const song = preroll > 0 ? withPreroll(original, preroll) : original;
  if (!song) throw new Error('no bars');
  const part = { track: 1, trackName: '', channel: 0 };
  const jobs: readonly Job[] = [{ part, map, ...(timing ? { timing: { ...asPlayed, ...timing } } : {}) }];
  const { value } = compile(song, jobs, original);
  const output = value && readMidi(value.bytes, 'out.mid').value;
  if (!output) throw new Error('nothing compiled');
  return proofOf(output, song, compileParts(song, jobs), true);
}

describe('the model of the library finds nothing wrong in what the compiler makes', () => {
  for (const [index, method] of methods.entries())
    it(`for random lines and maps: ${method}`, () => {
      fc.assert(
        fc.property(mapOfMethod(method), randomLine, (map, line) => {
          const { violations, notes } = proved(map, line);
          expect(violations).toEqual([]);
          expect(notes).toBe(line.length);
        }),
        { seed: 600 + index, numRuns: draws(60) },
      );
    });
});

const options: readonly (readonly [name: string, timing: Partial<TimingOptions>, preroll?: number])[] = [
  ['compensate', { compensate: true }],
  ['compensate with preroll', { compensate: true }, 1],
  ['joins', { joins: true }],
  ['pull', { pull: 0.6 }],
  ['pull all the way to a given grid', { pull: 1, grids: [{ numerator: 1, denominator: 8 }] }],
  ['roll', { roll: { sdMs: 18, order: 'unordered' } }],
  ['loosen', { loosenMs: 8 }],
  [
    'all together',
    { compensate: true, joins: true, pull: 0.6, roll: { sdMs: 18, order: 'high-low' }, loosenMs: 8 },
    1,
  ],
];

/** A random map whose articulations speak late, join, and have lengths. */
const slowMap = fc
  .tuple(
    fc.constantFrom(...methods).chain(mapOfMethod),
    fc.array(fc.nat(200), { minLength: 5, maxLength: 5 }),
  )
  .map(([map, speaks]): ArticulationMap => {
    const articulations = [...map.articulations.values()].map((articulation, index) => ({
      ...articulation,
      speaksAfter: [{ is: { unit: 'ms', ms: speaks[index] ?? 0 } as const }],
      ...(index % 2 === 0 ? { joins: { overlap: [{ is: { unit: 'ms', ms: 40 } as const }] } } : {}),
      ...(index === 1
        ? { length: { min: { unit: 'ms', ms: 60 } as const, max: { unit: 'ms', ms: 300 } as const } }
        : {}),
    }));
    return { ...map, articulations: new Map(articulations.map((one) => [one.name, one])) };
  });

describe('nor with timing options', () => {
  for (const [index, [name, timing, preroll]] of options.entries())
    it(name, () => {
      fc.assert(
        fc.property(slowMap, randomLine, (map, line) => {
          expect(proved(map, line, timing, preroll).violations).toEqual([]);
        }),
        { seed: 700 + index, numRuns: draws(60) },
      );
    });
});

describe('what fuzzing found', () => {
  it('a note that is never released keeps its momentary key to the end of the track', () => {
    const map = mapOf(`switching: {notes: momentary}
articulations:
  short: {switch: {note: C0}}
  long: {}
rules:
  - when: {held: {below: 200ms}}
    use: short
  - use: long
`);
    const events = [
      { deltaTime: 480, type: 'noteOn', channel: 0, noteNumber: 60, velocity: 80 },
      { deltaTime: 100, type: 'endOfTrack', meta: true },
    ] as MidiEvent[];
    const song = songOf([events]);
    const jobs = [{ part: { track: 1, trackName: '', channel: 0 }, map }];
    const { value } = compile(song, jobs);
    const output = value && readMidi(value.bytes, 'out.mid').value;
    if (!output) throw new Error('nothing compiled');
    expect(decisionsIn(value.parts[0])[0]?.articulation).toBe('short');
    expect(proofOf(output, song, compileParts(song, jobs), true).violations).toEqual([]);
  });
});
