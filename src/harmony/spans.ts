import { finder } from '../time/sorted.js';
import type { SettledNote } from './settle.js';

/** What sounds between two lines. */
export interface Span {
  readonly tick: number;
  readonly endTick: number;
  /** From low to high; none where all is silent. */
  readonly pitches: readonly SpanPitch[];
}

export interface SpanPitch {
  readonly pitch: number;
  /** Of the span, the share through which the pitch sounds: above 0, at most 1. */
  readonly share: number;
  /** The same, with what passes counting less. */
  readonly weight: number;
}

interface Piece {
  readonly pitch: number;
  readonly ticks: number;
  readonly weight: number;
}

/** What a tone that passes counts for, to one that stands. */
const passingWeight = 0.3;

/**
 * What sounds between each two neighbouring lines (rising), silent spans too. Takes time in proportion to notes and
 * lines, however long a note is held.
 */
export function spansOf(notes: readonly SettledNote[], lines: readonly number[]): readonly Span[] {
  const pieces: Piece[][] = lines.map(() => []);
  const begun: number[][] = lines.map(() => []);
  const ended: number[][] = lines.map(() => []);
  const spanAt = finder(lines);
  for (const { tick, endTick, pitch, passing } of notes) {
    const first = spanAt(tick);
    const last = spanAt(endTick);
    const weight = passing ? passingWeight : 1;
    if (first === last) pieces[first]?.push({ pitch, ticks: endTick - tick, weight });
    else {
      pieces[first]?.push({ pitch, ticks: (lines[first + 1] ?? tick) - tick, weight });
      pieces[last]?.push({ pitch, ticks: endTick - (lines[last] ?? endTick), weight });
      begun[first + 1]?.push(pitch);
      ended[last]?.push(pitch);
    }
  }
  const held = new Int32Array(128);
  return lines.slice(0, -1).map((tick, index): Span => {
    for (const pitch of begun[index] ?? []) held[pitch] = (held[pitch] ?? 0) + 1;
    for (const pitch of ended[index] ?? []) held[pitch] = (held[pitch] ?? 0) - 1;
    const endTick = lines[index + 1] ?? tick;
    return { tick, endTick, pitches: pitchesOf(held, pieces[index] ?? [], endTick - tick) };
  });
}

/** The pitches of a span of `length` ticks: those held through it, and pieces of others. */
function pitchesOf(held: Int32Array, pieces: readonly Piece[], length: number): readonly SpanPitch[] {
  const sums = new PitchSums();
  held.forEach((count, pitch) => {
    if (count > 0) sums.add(pitch, length, length);
  });
  for (const { pitch, ticks, weight } of pieces) sums.add(pitch, ticks, ticks * weight);
  return sums.over(length);
}

/** Adds up through how many ticks pitches sound. */
export class PitchSums {
  readonly #sums = new Map<number, { ticks: number; weight: number }>();

  add(pitch: number, ticks: number, weight: number): void {
    const sum = this.#sums.get(pitch);
    if (sum) {
      sum.ticks += ticks;
      sum.weight += weight;
    } else this.#sums.set(pitch, { ticks, weight });
  }

  /** The pitches as shares of a length. */
  over(length: number): readonly SpanPitch[] {
    return [...this.#sums]
      .flatMap(([pitch, { ticks, weight }]): SpanPitch[] => {
        const [share, weighed] = [Math.min(1, ticks / length), Math.min(1, weight / length)];
        return ticks > 0 ? [{ pitch, share, weight: weighed }] : [];
      })
      .sort((a, b) => a.pitch - b.pitch);
  }
}
