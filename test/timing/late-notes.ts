import type { Clock } from '../../src/midi/clock/clock.js';
import type { Duration } from '../../src/midi/duration.js';
import { type ClampReason, compensate, type LateNotes } from '../../src/timing/compensate.js';

/** A note whose sample speaks late, as `LateNotes` has them in columns. */
export interface LateNote {
  readonly onset: number;
  readonly release: number;
  readonly pitch: number;
  readonly channel: number;
  readonly speaksAfter: Duration;
  /** Its onset, if absent. */
  readonly heardAt?: number;
  readonly struck: number;
}

export function lateNotes(notes: readonly LateNote[]): LateNotes {
  return {
    length: notes.length,
    onset: Float64Array.from(notes, ({ onset }) => onset),
    release: Float64Array.from(notes, ({ release }) => release),
    pitch: Uint8Array.from(notes, ({ pitch }) => pitch),
    channel: Uint8Array.from(notes, ({ channel }) => channel),
    heardAt: Float64Array.from(notes, ({ onset, heardAt }) => heardAt ?? onset),
    struck: Uint32Array.from(notes, ({ struck }) => struck),
    speaksAfter: (note) => notes[note]?.speaksAfter ?? { unit: 'ms', ms: 0 },
  };
}

/** A note that is still heard late: where it should have started, and where it starts. */
export interface Clamped {
  readonly index: number;
  readonly wantedMs: number;
  readonly gotMs: number;
  readonly reason: ClampReason;
}

/** What `compensate` makes of notes, as lists; of those that are clamped what is told of them. */
export function compensated(
  notes: readonly LateNote[],
  clock: Clock,
): {
  readonly onsets: readonly number[];
  readonly releases: readonly number[];
  readonly clamped: readonly Clamped[];
} {
  const { onsets, releases, wantedMs, clampOf } = compensate(lateNotes(notes), clock);
  const clamped = notes.flatMap((_, index): Clamped[] => {
    const reason = clampOf(index);
    if (!reason) return [];
    return [{ index, wantedMs: wantedMs[index] ?? 0, gotMs: clock.ms(onsets[index] ?? 0), reason }];
  });
  return { onsets: [...onsets], releases: [...releases], clamped };
}
