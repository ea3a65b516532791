import type { ChordToVoice } from './chords.js';
import { costs, distinct, registerCost } from './cost.js';
import { faultsOf } from './faults.js';
import { type Layout, rest } from './layouts.js';
import { cheapestPath } from './search.js';
import type { Voice } from './types.js';

/**
 * Adds a voice that doubles: for each chord a pitch of the chord in its range, no lower than the voice below it and no
 * higher than the voice above it, such that nothing becomes worse than it was (`faultsOf`); a rest where there is none.
 * Unisons with another part cost nothing here, new pitches as much as a unison does elsewhere. Of all ways through the
 * chords the cheapest, as in `cheapestPath`.
 *
 * @param columns for each chord the pitches of all voices, low voices first; this one's is not there yet
 * @param at the place that the voice takes among them
 */
export function doublingVoice(
  columns: readonly (readonly number[])[],
  chords: readonly ChordToVoice[],
  voice: Voice,
  at: number,
): readonly number[] {
  const choices = columns.map((column, index): readonly Layout[] => {
    const chord = chords[index];
    return chord ? choicesIn(column, chord, voice, at) : [{ pitches: [rest], cost: 0 }];
  });
  // As a line by itself: the place of the lowest voice, which leaps more freely, is not its own.
  const lines = choices.map((own) =>
    own.map(({ pitches: [pitch = rest], cost }) => ({ pitches: [rest, pitch], cost })),
  );
  const { chosen } = cheapestPath(lines, -1);
  return choices.map((own, index) => own[chosen[index] ?? 0]?.pitches[0] ?? rest);
}

function choicesIn(
  column: readonly number[],
  chord: ChordToVoice,
  voice: Voice,
  at: number,
): readonly Layout[] {
  const low = column.slice(0, at).findLast((pitch) => pitch !== rest) ?? 0;
  const high = column.slice(at).find((pitch) => pitch !== rest) ?? 127;
  const sounding = column.filter((pitch) => pitch !== rest);
  if (sounding.length === 0 || chord.tones.size < 2) return [{ pitches: [rest], cost: 0 }];
  const before = faultsOf(distinct(sounding), sounding, chord);
  const found: Layout[] = [];
  for (let pitch = Math.max(low, voice.range.low); pitch <= Math.min(high, voice.range.high); pitch++) {
    const tone = chord.tones.get(pitch % 12);
    const together = [...sounding, pitch];
    if (tone === undefined || faultsOf(distinct(together), together, chord) > before) continue;
    const isNew = !sounding.includes(pitch);
    const cost = costs.doubled[tone] + (isNew ? costs.unison : 0) + registerCost(pitch, voice);
    found.push({ pitches: [pitch], cost });
  }
  return found.length > 0 ? found : [{ pitches: [rest], cost: 0 }];
}
