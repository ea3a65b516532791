import { defaultChordWindow } from '../../map/index.js';
import type { Clock } from '../../midi/index.js';
import type { NoteToNotate } from './types.js';

/** Notes struck together, or as good as that. */
export interface Struck {
  readonly tick: number;
  readonly notes: readonly NoteToNotate[];
}

/** So long all notes of a rolled chord sound together at least; a run's do not. Own figure, no source. */
const HELD_MS = 150;

/** Two or three notes are no roll. */
const FEWEST_NOTES = 3;

/**
 * Makes one onset of a rolled chord: notes that follow each other within the chord window, each higher than the one
 * before (or each lower), and then sound on together.
 */
export function joinRolled(struck: readonly Struck[], clock: Clock): readonly Struck[] {
  const joined: Struck[] = [];
  for (let first = 0; first < struck.length; ) {
    const onset = struck[first];
    if (!onset) break;
    const last = endOfChain(struck, first, clock);
    const notes = last === first ? onset.notes : struck.slice(first, last + 1).flatMap((one) => one.notes);
    const isRoll = last > first && isHeldRoll(notes, clock);
    joined.push(isRoll ? { tick: onset.tick, notes } : onset);
    first = isRoll ? last + 1 : first + 1;
  }
  return joined;
}

/** Whether notes of one onset were spread wider than notes struck together are. */
export function isRolled(notes: readonly NoteToNotate[], clock: Clock): boolean {
  const [first] = notes;
  const last = notes.at(-1);
  if (!first || !last || notes.length < FEWEST_NOTES || first.tick === last.tick) return false;
  return clock.ms(last.tick) - clock.ms(first.tick) > defaultChordWindow.ms && isOneWay(notes);
}

/** The last onset that is reached in steps of the chord window. */
function endOfChain(struck: readonly Struck[], first: number, clock: Clock): number {
  let last = first;
  for (let next = struck[first + 1]; next; next = struck[last + 1]) {
    const from = struck[last]?.notes.at(-1)?.tick ?? 0;
    if (clock.ms(next.tick) - clock.ms(from) > defaultChordWindow.ms) break;
    last += 1;
    if (last - first > MOST_ONSETS) return first;
  }
  return last;
}

/** Two hands' fingers; what is longer is a run. */
const MOST_ONSETS = 10;

function isHeldRoll(notes: readonly NoteToNotate[], clock: Clock): boolean {
  if (notes.length < FEWEST_NOTES || !isOneWay(notes)) return false;
  const release = notes.reduce((first, { endTick }) => Math.min(first, endTick), Number.POSITIVE_INFINITY);
  return clock.ms(release) - clock.ms(notes.at(-1)?.tick ?? 0) >= HELD_MS;
}

function isOneWay(notes: readonly NoteToNotate[]): boolean {
  const steps = notes.slice(1).map(({ pitch }, index) => Math.sign(pitch - (notes[index]?.pitch ?? pitch)));
  return steps[0] !== 0 && steps.every((step) => step === steps[0]);
}
