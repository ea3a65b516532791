import type { Chord, Pair, TakenNote, WrittenNote } from './notes.js';

/** What it costs to leave a written note unplayed, and to have played one that is not written. */
const missingCost = 1;
const extraCost = 1;
/** Of a chord whose notes lie a second apart. */
const spreadCost = 0.5;
/** Notes that may stand between those of a chord: a slip, an ornament, another voice. */
const mostBetween = 4;

/** To leave out a whole stretch costs this to begin with, and then less a note than single notes unplayed. */
const stretchCost = 4;
const leftOutCost = 0.5;

const skipChord = 0;
const skipNote = 1;
/** The chords up to here were left out as a stretch. */
const resume = 127;
/** In the same byte, of the way that leaves a stretch out: whether it begins with this chord. */
const opens = 128;

/**
 * Aligns a take with a score by pitches alone, in order, tempo free: the cheapest way through the chords of the score
 * and the notes of the take, in which each chord is skipped or takes a run of notes, and each note is in a run or extra
 * (edit distance with runs and affine gaps, by dynamic programming). Stretches are left out as a whole, as repeats that
 * were not made: else single notes of them would seem to be played, by chance.
 *
 * @param taken in order of onset
 */
export function alignChords(
  written: readonly WrittenNote[],
  chords: readonly Chord[],
  taken: readonly TakenNote[],
): readonly Pair[] {
  const width = taken.length + 1;
  const steps = new Uint8Array((chords.length + 1) * width);
  const pitches = Uint8Array.from(taken, ({ pitch }) => pitch);
  const onsets = Float64Array.from(taken, ({ ms }) => ms);
  let before = Float32Array.from({ length: width }, (_, note) => note * extraCost);
  let here = new Float32Array(width);
  const leaving = new Float32Array(width).fill(Number.POSITIVE_INFINITY);
  steps.fill(skipNote, 1, width);
  chords.forEach((chord, index) => {
    const counts = countsOf(chord, written);
    fillRow({
      counts,
      size: chord.notes.length,
      pitches,
      onsets,
      before,
      here,
      leaving,
      steps,
      row: (index + 1) * width,
    });
    [before, here] = [here, before];
  });
  return trace(chords, written, taken, steps);
}

interface Row {
  /** How often each pitch stands in the chord. */
  readonly counts: Uint8Array;
  readonly size: number;
  readonly pitches: Uint8Array;
  readonly onsets: Float64Array;
  readonly before: Float32Array;
  readonly here: Float32Array;
  /** Costs where the chords up to here are left out as a stretch. */
  readonly leaving: Float32Array;
  readonly steps: Uint8Array;
  /** Where the row's steps begin. */
  readonly row: number;
}

function countsOf(chord: Chord, written: readonly WrittenNote[]): Uint8Array {
  const counts = new Uint8Array(128);
  for (const index of chord.notes) {
    const pitch = written[index]?.pitch ?? 0;
    counts[pitch] = Math.min(255, (counts[pitch] ?? 0) + 1);
  }
  return counts;
}

function fillRow(row: Row): void {
  const { counts, size, pitches, before, here, leaving, steps } = row;
  for (let note = 0; note < here.length; note++) {
    const isOpening = leave(row, note);
    let least = at(before, note) + size * missingCost;
    let step = skipChord;
    const take = (cost: number, how: number) => {
      least = cost;
      step = how;
    };
    const left = at(leaving, note);
    if (left < least) take(left, resume);
    const extra = at(here, note - 1) + extraCost;
    if (extra < least) take(extra, skipNote);
    const run = note > 0 && at(counts, at(pitches, note - 1)) > 0 ? bestRun(row, note) : none;
    if (run.cost <= least) take(run.cost, skipNote + run.length);
    here[note] = least;
    steps[row.row + note] = isOpening ? step | opens : step;
  }
}

/** A cell; before the first there is no way. */
function at(cells: Float32Array | Uint8Array, index: number): number {
  return cells[index] ?? Number.POSITIVE_INFINITY;
}

/** Leaves the chord out as part of a stretch. @returns whether the stretch begins with it */
function leave({ before, leaving, size }: Row, note: number): boolean {
  const opening = (before[note] ?? 0) + stretchCost;
  const going = leaving[note] ?? 0;
  leaving[note] = Math.min(opening, going) + size * leftOutCost;
  return opening < going;
}

const none = { cost: Number.POSITIVE_INFINITY, length: 0 };
const seen = new Uint8Array(128);
const best = { cost: 0, length: 0 };

/** The cheapest run of notes that ends before `end`, begins and ends with notes of the chord, and is all of it. */
function bestRun(
  { counts, size, pitches, onsets, before }: Row,
  end: number,
): { cost: number; length: number } {
  best.cost = Number.POSITIVE_INFINITY;
  best.length = 0;
  const longest = Math.min(end, size + mostBetween, resume - skipNote - 1);
  let matched = 0;
  for (let length = 1; length <= longest; length++) {
    const pitch = pitches[end - length] ?? 0;
    const free = (counts[pitch] ?? 0) - (seen[pitch] ?? 0);
    seen[pitch] = (seen[pitch] ?? 0) + 1;
    if (free <= 0) continue;
    matched += 1;
    const spread = ((onsets[end - 1] ?? 0) - (onsets[end - length] ?? 0)) / 1000;
    const cost =
      (before[end - length] ?? 0) +
      (size - matched) * missingCost +
      (length - matched) * extraCost +
      spread * spreadCost;
    if (cost < best.cost) {
      best.cost = cost;
      best.length = length;
    }
  }
  for (let length = 1; length <= longest; length++) seen[pitches[end - length] ?? 0] = 0;
  return best;
}

function trace(
  chords: readonly Chord[],
  written: readonly WrittenNote[],
  taken: readonly TakenNote[],
  steps: Uint8Array,
): readonly Pair[] {
  const width = taken.length + 1;
  const pairs: Pair[] = [];
  let row = chords.length;
  let note = taken.length;
  let isLeaving = false;
  while (row > 0) {
    const code = steps[row * width + note] ?? skipChord;
    const step = code & (opens - 1);
    if (isLeaving || step === resume) {
      isLeaving = (code & opens) === 0;
      row -= 1;
    } else if (step === skipNote) note -= 1;
    else {
      const length = step === skipChord ? 0 : step - skipNote;
      const chord = chords[row - 1];
      if (chord && length > 0) pairs.push(...pairsOfRun(chord, written, taken, note - length, note));
      row -= 1;
      note -= length;
    }
  }
  return pairs.reverse();
}

/** Each note of a run takes the first note of its pitch that is still free in the chord. */
function pairsOfRun(
  chord: Chord,
  written: readonly WrittenNote[],
  taken: readonly TakenNote[],
  from: number,
  to: number,
): readonly Pair[] {
  const free = [...chord.notes];
  const pairs: Pair[] = [];
  for (let note = from; note < to; note++) {
    const at = free.findIndex((index) => written[index]?.pitch === taken[note]?.pitch);
    const index = free[at];
    if (index === undefined) continue;
    free.splice(at, 1);
    pairs.push({ written: index, taken: note });
  }
  return pairs;
}
