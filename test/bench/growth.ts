import { thin } from '../../src/dynamics/thin.js';
import { harmonyOf, registerOf, type SoundingNote, voicingOf } from '../../src/music/index.js';
import { notate } from '../../src/sheet/notate/index.js';
import { findGrid } from '../../src/timing/index.js';
import { clockWith, lineOf, notesOf, scoreOf, staffOf } from '../sheet/notate/scores.js';
import { perform, uniform15 } from '../timing/performances.js';
import { medians } from './measure.js';
import type { Row } from './table.js';

const clock = clockWith();

/** Four notes every eighth, in 20 parts. */
const sounding = (count: number): readonly SoundingNote[] =>
  Array.from({ length: count }, (_, index) => {
    const tick = Math.floor(index / 4) * 240;
    return { tick, endTick: tick + 230, pitch: 40 + ((index * 7) % 50), velocity: 80, part: index % 20 };
  });

/** Steps that once cost more than their input, each a function of how much it is given. */
const steps: readonly { readonly name: string; readonly run: (count: number) => () => unknown }[] = [
  {
    name: 'thinning a curve whose every split takes off one point',
    run: (count) => {
      const swings = Array.from({ length: count }, (_, at) => ({
        at,
        level: (at % 2 === 0 ? 1 : -1) * (2 * count - at),
      }));
      return () => thin(swings, 0.5);
    },
  },
  {
    name: 'finding the grid',
    run: (count) => {
      const { onsets } = perform('mixed', 120, uniform15, count / 2, 3);
      return () => findGrid(onsets);
    },
  },
  {
    name: 'harmony',
    run: (count) => {
      const notes = sounding(count);
      return () => harmonyOf(notes, clock, { per: 'found' });
    },
  },
  {
    name: 'harmony of a crowd at one place',
    run: (count) => {
      const notes = sounding(count).map((note) => ({ ...note, tick: 0, endTick: 480 }));
      return () => harmonyOf(notes, clock, { per: 'found' });
    },
  },
  {
    name: 'register',
    run: (count) => {
      const notes = sounding(count);
      const parts = Array.from({ length: 20 }, () => ({ name: 'Viola' }));
      return () => registerOf(notes, parts, clock);
    },
  },
  {
    name: 'voicing',
    run: (count) => {
      const notes = sounding(count);
      const harmony = harmonyOf(notes, clock, { per: 'bar' });
      return () => voicingOf(notes, harmony, clock);
    },
  },
  {
    name: 'notation',
    run: (count) => {
      const staves = Array.from({ length: 8 }, (_, part) =>
        staffOf([], {
          notes: notesOf(lineOf(Array(Math.round(count / 8)).fill(0.5), [60, 64, 67, 61]), `p${part}-`),
        }),
      );
      return () => notate(scoreOf(staves));
    },
  },
];

/** How much longer ten times the input takes: 10 where the cost follows it. */
export function growth(): readonly Row[] {
  return steps.map(({ name, run }) => {
    const [few = 0, many = 0] = medians(3, run(8_000), run(80_000));
    return [name, `${few.toFixed(0)} ms`, `${many.toFixed(0)} ms`, (many / Math.max(1, few)).toFixed(1)];
  });
}
