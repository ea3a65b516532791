import { finder } from '../../midi/index.js';
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

const pitchCount = 128;
/** What a tone that passes counts for, to one that stands. */
const passingWeight = 0.5;

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
  const held = new Int32Array(pitchCount);
  const sums = new PitchSums();
  return lines.slice(0, -1).map((tick, index): Span => {
    for (const pitch of begun[index] ?? []) held[pitch] = (held[pitch] ?? 0) + 1;
    for (const pitch of ended[index] ?? []) held[pitch] = (held[pitch] ?? 0) - 1;
    const endTick = lines[index + 1] ?? tick;
    const length = endTick - tick;
    held.forEach((count, pitch) => {
      if (count > 0) sums.add(pitch, length, length);
    });
    for (const { pitch, ticks, weight } of pieces[index] ?? []) sums.add(pitch, ticks, ticks * weight);
    return { tick, endTick, pitches: sums.takeOver(length) };
  });
}

/** Adds up through how many ticks each MIDI note sounds. */
export class PitchSums {
  readonly #ticks = new Float64Array(pitchCount);
  readonly #weights = new Float64Array(pitchCount);

  add(pitch: number, ticks: number, weight: number): void {
    this.#ticks[pitch] = (this.#ticks[pitch] ?? 0) + ticks;
    this.#weights[pitch] = (this.#weights[pitch] ?? 0) + weight;
  }

  /** The pitches as shares of a length; begins anew with none. */
  takeOver(length: number): readonly SpanPitch[] {
    const pitches: SpanPitch[] = [];
    for (let pitch = 0; pitch < pitchCount; pitch++) {
      const ticks = this.#ticks[pitch] ?? 0;
      if (ticks <= 0) continue;
      const weight = Math.min(1, (this.#weights[pitch] ?? 0) / length);
      pitches.push({ pitch, share: Math.min(1, ticks / length), weight });
    }
    this.#ticks.fill(0);
    this.#weights.fill(0);
    return pitches;
  }
}
