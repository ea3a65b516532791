import type { Clock, Duration } from '../midi/index.js';
import { startToSpeakAt, type Wanted } from './delay.js';
import { type OrderKeeper, orderKeeper } from './order.js';
import { type MovedNote, releasesBeforeRepeats } from './repeats.js';

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
  /** The tick at which it is to be heard, not before its onset; its onset, if absent. */
  readonly heardAt?: number;
  /** Which onset of its part it is of: notes with one number were struck together. */
  readonly struck: number;
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
 * An onset never comes onto or past the one before it on its channel, so that a switch can stand between them; a note
 * never onto or past its own pitch's earlier strike, nor before the start of the file. What is held back by that is in
 * `clamped`. A chord is held back as one: all its notes are heard late by as much, but none starts later than it was
 * played.
 *
 * The sounding length is what was played. A sound begins `speaksAfter` behind its note-on and ends with its
 * note-off; so the release is at (new onset + speaks-after + played length), which is where it was played unless
 * the note is heard late: then the release is later by as much. Only where the same pitch is struck again before
 * that, the release comes at that onset; this is in `shortened`. A note that is to be heard later than it was played
 * (with another library that speaks late) may start later too, and is released as much later. Linear in notes.
 *
 * @param notes in order of onset
 */
export function compensate(notes: readonly LateNote[], clock: Clock): Compensated {
  const keeper = orderKeeper();
  const clamped: Clamped[] = [];
  const moved: MovedNote[] = [];
  for (let from = 0; from < notes.length; ) {
    let to = from + 1;
    while (notes[to]?.struck === notes[from]?.struck && to < notes.length) to += 1;
    const chord = notes.slice(from, to).map((note) => wantedOf(note, clock));
    const { ticks, reason } = place(chord, keeper);
    chord.forEach(({ note, wanted }, at) => {
      const onset = ticks[at] ?? note.onset;
      let { release } = note;
      const gotMs = clock.ms(onset);
      if (onset > wanted.tick) clamped.push({ index: from + at, wantedMs: wanted.ms, gotMs, reason });
      const [isLate, isDelayed] = [onset > wanted.tick, onset > note.onset];
      if (isLate || isDelayed) {
        const by = Math.max(isLate ? gotMs - wanted.ms : 0, isDelayed ? gotMs - clock.ms(note.onset) : 0);
        release = clock.tickAt(clock.ms(note.release) + by);
      }
      moved.push({ pitch: note.pitch, channel: note.channel, played: note, onset, release });
    });
    from = to;
  }
  const releases = releasesBeforeRepeats(moved);
  const shortened: Shortened[] = [];
  moved.forEach(({ release }, index) => {
    const got = releases[index] ?? release;
    if (got < release) shortened.push({ index, wantedMs: clock.ms(release), gotMs: clock.ms(got) });
  });
  return { onsets: moved.map((note) => note.onset), releases, clamped, shortened };
}

interface Wanting {
  readonly note: LateNote;
  readonly wanted: Wanted;
}

function wantedOf(note: LateNote, clock: Clock): Wanting {
  return { note, wanted: startToSpeakAt(note.heardAt ?? note.onset, note.speaksAfter, clock) };
}

const reasons = { nothing: 'file-start', note: 'note-before', pitch: 'same-pitch' } as const;

/** Where the notes of a chord start: all as late as the one that is held back most, none later than it was played. */
function place(
  chord: readonly Wanting[],
  keeper: OrderKeeper,
): { readonly ticks: readonly number[]; readonly reason: ClampReason } {
  let [late, reason]: [number, ClampReason] = [0, 'file-start'];
  for (const { note, wanted } of chord) {
    const earliest = keeper.earliest(note);
    if (earliest.tick - wanted.tick <= late) continue;
    late = earliest.tick - wanted.tick;
    reason = earliest.tick === 0 ? 'file-start' : reasons[earliest.behind];
  }
  const pitches = new Map<number, { readonly onset: number; readonly tick: number }>();
  const ticks = chord.map(({ note, wanted }) => {
    const before = pitches.get(note.pitch);
    const behind = before ? before.tick + (note.onset > before.onset ? 1 : 0) : 0;
    const tick = Math.max(Math.min(note.heardAt ?? note.onset, wanted.tick + late), behind);
    pitches.set(note.pitch, { onset: note.onset, tick });
    return tick;
  });
  keeper.put(chord.map(({ note }, at) => ({ ...note, tick: ticks[at] ?? note.onset })));
  return { ticks, reason };
}
