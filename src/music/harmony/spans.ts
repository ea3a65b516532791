import { finder } from '../../midi/index.js';
import { type PitchColumns, PitchSet, PitchSums } from './pitch-sums.js';
import type { SettledNote } from './settle.js';

/**
 * What sounds between each two neighbouring lines, in columns: span `i` lies between lines `i` and `i + 1`, and has the
 * pitches from `first[i]` to before `first[i + 1]`, from low to high; none where all is silent.
 */
export interface Spans extends Readonly<PitchColumns> {
  readonly length: number;
  readonly lines: readonly number[];
  readonly first: Uint32Array;
}

export function spanTick({ lines }: Spans, span: number): number {
  return lines[span] ?? 0;
}

export function spanEnd({ lines }: Spans, span: number): number {
  return lines[span + 1] ?? 0;
}

/** Where the pitches of a span begin; of the number of spans, how many there are. */
export function firstPitch({ first }: Spans, span: number): number {
  return first[span] ?? 0;
}

export function isSilent({ first }: Spans, span: number): boolean {
  return first[span] === first[span + 1];
}

/** What a tone that passes counts for, to one that stands. */
const passingWeight = 0.5;

/**
 * What sounds between each two neighbouring lines (rising), silent spans too. Takes time in proportion to notes and
 * lines, however long a note is held.
 */
export function spansOf(notes: readonly SettledNote[], lines: readonly number[]): Spans {
  const length = Math.max(0, lines.length - 1);
  const edges = edgesOf(notes, lines);
  const columns: PitchColumns = { pitch: [], share: [], weight: [] };
  const first = new Uint32Array(length + 1);
  const sums = new PitchSums();
  const held = new HeldPitches();
  for (let span = 0; span < length; span++) {
    const ticks = spanTicks(lines, span);
    const own = edges.of(span);
    for (const index of own) if (edges.begins[index] !== span) held.remove(notes[index]?.pitch ?? 0);
    held.addTo(sums, ticks);
    for (const index of own) {
      const note = notes[index];
      if (!note) continue;
      addPiece(sums, note, lines, span);
      if (edges.ends[index] !== span) held.hold(note.pitch);
    }
    sums.moveTo(columns, ticks);
    first[span + 1] = columns.pitch.length;
  }
  return { length, lines, first, ...columns };
}

function spanTicks(lines: readonly number[], span: number): number {
  return (lines[span + 1] ?? 0) - (lines[span] ?? 0);
}

/** What of a note sounds in a span. */
function addPiece(
  sums: PitchSums,
  { tick, endTick, pitch, passing }: SettledNote,
  lines: readonly number[],
  span: number,
): void {
  const ticks = Math.min(lines[span + 1] ?? 0, endTick) - Math.max(lines[span] ?? 0, tick);
  sums.add(pitch, ticks, passing ? ticks * passingWeight : ticks);
}

/** Notes by the spans in which they begin and end. */
interface Edges {
  readonly begins: Int32Array;
  readonly ends: Int32Array;
  /** The notes that begin or end in a span, by index, in their order; one that does both is there once. */
  of(span: number): Uint32Array;
}

function edgesOf(notes: readonly SettledNote[], lines: readonly number[]): Edges {
  const [beginAt, endAt] = [finder(lines), finder(lines)];
  const begins = Int32Array.from(notes, ({ tick }) => beginAt(tick));
  const ends = Int32Array.from(notes, ({ endTick }) => endAt(endTick));
  const first = new Uint32Array(lines.length + 1);
  const each = (put: (span: number, index: number) => void) => {
    for (let index = 0; index < notes.length; index++) {
      const [begin, end] = [begins[index] ?? 0, ends[index] ?? 0];
      put(begin, index);
      if (end !== begin) put(end, index);
    }
  };
  each((span) => {
    first[span + 1] = (first[span + 1] ?? 0) + 1;
  });
  for (let span = 0; span < lines.length; span++)
    first[span + 1] = (first[span + 1] ?? 0) + (first[span] ?? 0);
  const next = first.slice();
  const placed = new Uint32Array(first[lines.length] ?? 0);
  each((span, index) => {
    const at = next[span] ?? 0;
    placed[at] = index;
    next[span] = at + 1;
  });
  return { begins, ends, of: (span) => placed.subarray(first[span], first[span + 1]) };
}

/** The pitches that sound all through a span. */
class HeldPitches {
  readonly #pitches = new PitchSet();
  /** By how many notes each is held. */
  readonly #counts = new Int32Array(128);

  hold(pitch: number): void {
    this.#counts[pitch] = (this.#counts[pitch] ?? 0) + 1;
    this.#pitches.add(pitch);
  }

  remove(pitch: number): void {
    const left = (this.#counts[pitch] ?? 0) - 1;
    this.#counts[pitch] = left;
    if (left === 0) this.#pitches.delete(pitch);
  }

  /** However many notes hold a pitch, it sounds once. */
  addTo(sums: PitchSums, ticks: number): void {
    const pitches = this.#pitches;
    for (let pitch = pitches.from(0); pitch >= 0; pitch = pitches.from(pitch + 1))
      sums.add(pitch, ticks, ticks);
  }
}
