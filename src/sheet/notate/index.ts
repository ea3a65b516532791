// Played notes become written rhythm, voices and spelling, as MEI.
import type { Measure } from './measures.js';
import { writeScore } from './mei/score.js';
import { stavesBySystem } from './playing.js';
import { writtenScore } from './rhythm.js';
import { systemsOf } from './systems.js';
import type { NotatedBar, Notation, ScoreToNotate } from './types.js';
import { barWidths, systemWidth } from './widths.js';

export { type Head, headsOf } from './accidentals.js';
export { type Beam, beamsOf } from './beams.js';
export type { Clef } from './clef.js';
export { divisionOf } from './division.js';
export { isSameMeter, type Measure, QUARTER, tickOf } from './measures.js';
export { abbreviated } from './mei/abbreviated.js';
export { type Attributes, element, xmlText } from './mei/xml.js';
export { roomFor } from './quiet.js';
export { writtenScore } from './rhythm.js';
export { isRolled } from './rolled.js';
export type { NotatedBar, Notation, ScoreToNotate, StaffToNotate } from './types.js';
export type { Layer, Piece, StaffBar, Tuplet, WrittenScore, WrittenStaff } from './written.js';

/**
 * Writes played parts down as a score: the rhythm on the grid that it was played on, in MEI 5.0. Every note is
 * written at the pitch that was played, and no two onsets of a staff at one place unless they were struck together.
 * Staff 2k + 1 holds part k (from 0), staff 2k + 2 is an empty line below it. Linear in notes: bars in which
 * nothing begins or ends cost nothing.
 */
export function notate(score: ScoreToNotate): Notation {
  const written = writtenScore(score);
  const { measures, staves, chords, fifths } = written;
  const widths = barWidths(staves, measures, chords);
  const { systems, drawn } = systemsOf(widths, systemWidth(staves, fifths), stretchOf(measures, score.drawn));
  const bars = measures.map(({ bar, bars, tick, endTick }, index): NotatedBar => {
    return { bar, bars, tick, endTick, system: systems[index] ?? 0 };
  });
  const all = staves.map((_, index) => index);
  const shown = score.resting ? systems.map(() => all) : stavesBySystem(staves, systems, drawn.from);
  const { whole, excerpt, positions } = writeScore({ ...written, systems, shown });
  return {
    get mei() {
      return whole();
    },
    excerpt,
    bars,
    drawn,
    shown,
    positions,
  };
}

/** The bars that are drawn. */
export function drawnBars({ bars, drawn }: Pick<Notation, 'bars' | 'drawn'>): readonly NotatedBar[] {
  return bars.filter(({ system }) => system >= drawn.from && system < drawn.to);
}

/** The indices of measures that have something of these bars: from the first up to the last, which is left out. */
function stretchOf(measures: readonly Measure[], drawn: ScoreToNotate['drawn']) {
  if (!drawn) return { from: 0, to: measures.length };
  const from = measures.findIndex(({ bar, bars }) => bar + bars > drawn.from);
  const to = measures.findIndex(({ bar }) => bar > drawn.to);
  return { from: from < 0 ? measures.length : from, to: to < 0 ? measures.length : to };
}
