import type { Clock, Duration } from '../midi/index.js';
import { startToSpeakAt } from './delay.js';
import { type OrderKeeper, orderKeeper } from './order.js';
import { releasesBeforeRepeats } from './repeats.js';

/** A note whose sample speaks late. */
export interface LateNote {
  /** The ticks at which it was played. */
  readonly onset: number;
  readonly release: number;
  readonly pitch: number;
  /** The channel on which it goes out. */
  readonly channel: number;
  /** From note-on until the note is heard to begin. */
  readonly speaksAfter: Duration;
  /** Whether a switch has to be sent between the onset before it on its channel and this one. */
  readonly needsSwitch: boolean;
}

/** What kept a note from starting as early as it should. */
export type ClampReason = 'file-start' | 'note-before' | 'same-pitch';

/** A note that is still heard late. */
export interface Clamped {
  /** Its index among the notes. */
  readonly index: number;
  /** Where it should have started, in milliseconds from the start of the file; may lie before it. */
  readonly wantedMs: number;
  /** Where it starts. */
  readonly gotMs: number;
  readonly reason: ClampReason;
}

/** A note that is released early, because its pitch is struck again. */
export interface Shortened {
  readonly index: number;
  readonly wantedMs: number;
  readonly gotMs: number;
}

export interface Compensated {
  /** New ticks, by the index of the note. */
  readonly onsets: readonly number[];
  readonly releases: readonly number[];
  readonly clamped: readonly Clamped[];
  readonly shortened: readonly Shortened[];
}

/**
 * Starts each note earlier by the time that its sample needs to speak, so that it is heard where it was played.
 *
 * A note never passes the onset before it on its channel (one tick later where its own switch has to stand
 * between), never the same pitch's earlier note, and never the start of the file; what is held back by that is in
 * `clamped`. Notes struck at one tick do not hold each other back.
 *
 * The sounding length is what was played. A sound begins `speaksAfter` behind its note-on and ends with its
 * note-off; so the release is at (new onset + speaks-after + played length), which is where it was played unless
 * the note is heard late: then the release is later by as much. Only where the same pitch is struck again before
 * that, the release comes at that onset; this is in `shortened`. Linear in notes.
 *
 * @param notes in order of onset
 */
export function compensate(notes: readonly LateNote[], clock: Clock): Compensated {
  const keepers = new Map<number, OrderKeeper>();
  const clamped: Clamped[] = [];
  const moved = notes.map((note, index) => {
    const wanted = startToSpeakAt(note.onset, note.speaksAfter, clock);
    const { onset, reason } = place(note, wanted.tick, keeperOf(keepers, note.channel));
    let release = note.release;
    if (reason !== undefined) {
      const gotMs = clock.ms(onset);
      clamped.push({ index, wantedMs: wanted.ms, gotMs, reason });
      release = clock.tickAt(clock.ms(note.release) + gotMs - wanted.ms);
    }
    return { pitch: note.pitch, channel: note.channel, played: note, onset, release };
  });
  const releases = releasesBeforeRepeats(moved);
  const shortened: Shortened[] = [];
  moved.forEach(({ release }, index) => {
    const got = releases[index] ?? release;
    if (got < release) shortened.push({ index, wantedMs: clock.ms(release), gotMs: clock.ms(got) });
  });
  return { onsets: moved.map((note) => note.onset), releases, clamped, shortened };
}

function place(
  note: LateNote,
  wanted: number,
  keeper: OrderKeeper,
): { onset: number; reason: ClampReason | undefined } {
  const { behindNote, behindPitch } = keeper.earliest(note.onset, note.pitch, note.needsSwitch);
  const onset = Math.max(wanted, behindNote, behindPitch);
  keeper.put(note.pitch, onset);
  if (onset === wanted) return { onset, reason: undefined };
  if (onset === 0) return { onset, reason: 'file-start' };
  return { onset, reason: behindNote >= behindPitch ? 'note-before' : 'same-pitch' };
}

function keeperOf(keepers: Map<number, OrderKeeper>, channel: number): OrderKeeper {
  const keeper = keepers.get(channel) ?? orderKeeper();
  keepers.set(channel, keeper);
  return keeper;
}
