import fc from 'fast-check';
import { risingSet } from '../../../src/music/harmony/rising-set.js';

const note = fc
  .tuple(
    fc.constantFrom(31, 36, 40, 43, 48, 52, 55, 60, 64, 67, 70, 95, 96),
    fc.integer({ min: 0, max: 60 }),
    fc.integer({ min: 0, max: 12 }),
    fc.boolean(),
  )
  .map(([pitch, tick, length, passing]) => ({ pitch, tick, endTick: tick + length, passing }));

/**
 * Settled notes, and lines that enclose them.
 *
 * @param longSilences whether nothing may sound for longer than eight ticks
 */
export function musicInLines({ longSilences }: { readonly longSilences: boolean }) {
  const held = { pitch: 36, tick: 0, endTick: 72, passing: false };
  return fc
    .tuple(
      fc.array(note, { minLength: 1, maxLength: 60 }),
      fc.array(fc.integer({ min: 0, max: 72 }), { maxLength: 40 }),
    )
    .map(([drawn, lines]) => {
      const notes = longSilences ? drawn : [...drawn, held];
      const ticks = notes.flatMap(({ tick, endTick }) => [tick, endTick]);
      const [least, most] = [Math.min(...ticks), Math.max(...ticks)];
      const within = lines.filter((line) => line > least && line < most);
      return { notes, lines: risingSet([...within, least, most]) };
    });
}
