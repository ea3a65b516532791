import fc from 'fast-check';
import type { ScoreToNotate, StaffToNotate } from '../../../src/sheet/notate/types.js';
import { clockWith, type Signature } from './scores.js';

const signature = fc.record({
  /** From the one before, in quarters: a bar may be cut short. */
  after: fc.integer({ min: 1, max: 40 }).map((eighths) => eighths / 2),
  count: fc.integer({ min: 1, max: 13 }),
  unit: fc.constantFrom(2, 4, 8, 16),
});

const step = fc.oneof(
  fc.constantFrom(0, 1 / 4, 1 / 3, 1 / 2, 2 / 3, 1, 3 / 2, 2, 5),
  fc.double({ min: 0, max: 0.1, noNaN: true }),
  fc.double({ min: 0, max: 3, noNaN: true }),
);

const note = fc.record({
  step,
  length: fc.oneof(
    fc.constant(0),
    fc.double({ min: 0, max: 1, noNaN: true }),
    fc.double({ min: 0, max: 9, noNaN: true }),
  ),
  pitch: fc.oneof(fc.integer({ min: 48, max: 84 }), fc.integer({ min: 0, max: 127 })),
});

const part = fc.record({ notes: fc.array(note, { maxLength: 40 }), percussion: fc.boolean() });

const keys = fc.array(
  fc.record({ after: fc.integer({ min: 0, max: 5000 }), fifths: fc.integer({ min: -7, max: 7 }) }),
  {
    maxLength: 3,
  },
);

/** Any music: meters that change within bars, crowds, rests, overlaps, chords, several parts, keys. */
export const randomScore: fc.Arbitrary<ScoreToNotate> = fc
  .record({
    signatures: fc.array(signature, { maxLength: 4 }),
    parts: fc.array(part, { minLength: 1, maxLength: 3 }),
    ppq: fc.constantFrom(96, 100, 480, 960),
    bpm: fc.integer({ min: 20, max: 240 }),
    keys,
    tail: fc.integer({ min: 0, max: 3000 }),
  })
  .map(({ signatures, parts, ppq, bpm, keys, tail }) => {
    let at = 0;
    const changes = signatures.map(({ after, count, unit }, index): Signature => {
      at += index === 0 ? 0 : after;
      return [at, count, unit];
    });
    const staves = parts.map(({ notes, percussion }, index) =>
      staffFrom(notes, `p${index}-`, ppq, percussion),
    );
    let tick = 0;
    const signs = keys.map(({ after, fifths }) => {
      tick += after;
      return { tick, fifths };
    });
    const lastTick = staves
      .flatMap(({ notes }) => notes.map((one) => one.tick))
      .reduce((a, b) => Math.max(a, b), 0);
    return { clock: clockWith(changes, bpm, ppq), staves, keys: signs, chords: [], endTick: lastTick + tail };
  });

function staffFrom(
  notes: readonly { readonly step: number; readonly length: number; readonly pitch: number }[],
  name: string,
  ppq: number,
  percussion: boolean,
): StaffToNotate {
  let tick = 0;
  const played = notes.map(({ step: after, length, pitch }, index) => {
    tick += Math.round(after * ppq);
    return { id: `${name}${index}`, tick, endTick: tick + Math.round(length * ppq), pitch };
  });
  return { label: name, notes: played, words: [], percussion };
}
