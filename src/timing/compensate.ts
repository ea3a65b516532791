import type { Clock, Duration } from '../midi/index.js';
import { startToSpeakAt } from './delay.js';
import { OrderKeeper, type Standing } from './order.js';
import { releasesBeforeRepeats } from './repeats.js';

/** Notes whose samples speak late, in order of onset, in columns. */
export interface LateNotes {
  readonly length: number;
  /** The ticks at which they were played. */
  readonly onset: Float64Array;
  readonly release: Float64Array;
  readonly pitch: Uint8Array;
  /** The channel (0–15) on which each goes out. */
  readonly channel: Uint8Array;
  /** The tick at which each is to be heard, not before its onset. */
  readonly heardAt: Float64Array;
  /** Which onset of its part each is of: notes with one number were struck together. */
  readonly struck: Uint32Array;
  /** From a note's note-on until it is heard to begin. */
  speaksAfter(note: number): Duration;
}

/** What kept a note from starting as early as it should. */
export type ClampReason = 'file-start' | 'note-before' | 'same-pitch';

export interface Compensated {
  /** New ticks, by the index of the note. */
  readonly onsets: Float64Array;
  readonly releases: Float64Array;
  /** Where each note should have started, in milliseconds from the start of the file; may lie before it. */
  readonly wantedMs: Float64Array;
  /** Why a note is still heard late; undefined where it is heard in time. */
  clampOf(note: number): ClampReason | undefined;
}

/**
 * Starts each note earlier by the time that its sample needs to speak, so that it is heard where it was played.
 *
 * An onset never comes onto or past the one before it on its channel, so that a switch can stand between them; a note
 * never onto or past its own pitch's earlier strike, nor before the start of the file. What is held back by that has a
 * `clampOf`. A chord is held back as one: all its notes are heard late by as much, but none starts later than it was
 * played.
 *
 * The sounding length is what was played. A sound begins `speaksAfter` behind its note-on and ends with its
 * note-off; so the release is at (new onset + speaks-after + played length), which is where it was played unless
 * the note is heard late: then the release is later by as much. Only where the same pitch is struck again before
 * that, the release comes at that onset. A note that is to be heard later than it was played (with another library that
 * speaks late) may start later too, and is released as much later. Linear in notes.
 */
export function compensate(notes: LateNotes, clock: Clock): Compensated {
  const { length, struck } = notes;
  const moving = new Moving(notes, clock);
  for (let from = 0; from < length; ) {
    let to = from + 1;
    while (to < length && struck[to] === struck[from]) to += 1;
    moving.chord(from, to);
    from = to;
  }
  const { onsets, wantedMs, clamps } = moving;
  const { pitch, channel, onset: playedOnset, release: playedRelease } = notes;
  const moved = { pitch, channel, playedOnset, playedRelease, onset: onsets, release: moving.releases };
  return {
    onsets,
    releases: releasesBeforeRepeats(moved),
    wantedMs,
    clampOf: (note) => reasons[clamps[note] ?? 0],
  };
}

/** Reasons by their numbers; 0 is none. */
const reasons = [undefined, 'file-start', 'note-before', 'same-pitch'] as const;

/** Notes of which those of one onset after the other are moved. */
class Moving {
  readonly onsets: Float64Array;
  readonly releases: Float64Array;
  readonly wantedMs: Float64Array;
  /** The number of each note's reason. */
  readonly clamps: Uint8Array;
  readonly #notes: LateNotes;
  readonly #clock: Clock;
  readonly #wanted: Float64Array;
  readonly #keeper = new OrderKeeper();
  /** The note of each pitch that was moved last. */
  readonly #ofPitch = new Int32Array(128).fill(-1);
  /** One of the notes; so that not each needs an object. */
  readonly #one = { channel: 0, pitch: 0, onset: 0 };

  constructor(notes: LateNotes, clock: Clock) {
    this.#notes = notes;
    this.#clock = clock;
    this.onsets = new Float64Array(notes.length);
    this.releases = notes.release.slice();
    this.wantedMs = new Float64Array(notes.length);
    this.clamps = new Uint8Array(notes.length);
    this.#wanted = new Float64Array(notes.length);
    for (let note = 0; note < notes.length; note++) {
      const { ms, tick } = startToSpeakAt(notes.heardAt[note] ?? 0, notes.speaksAfter(note), clock);
      this.wantedMs[note] = ms;
      this.#wanted[note] = tick;
    }
  }

  /** Moves the notes of an onset: all as late as the one that is held back most, none later than it was played. */
  chord(from: number, to: number): void {
    const { late, clamp } = this.#heldBack(from, to);
    for (let note = from; note < to; note++) {
      const latest = Math.min(this.#notes.heardAt[note] ?? 0, (this.#wanted[note] ?? 0) + late);
      this.onsets[note] = Math.max(latest, this.#behindItsPitch(note, from));
      this.#ofPitch[this.#notes.pitch[note] ?? 0] = note;
      this.#release(note);
      if ((this.onsets[note] ?? 0) > (this.#wanted[note] ?? 0)) this.clamps[note] = clamp;
    }
    for (let note = from; note < to; note++) this.#keeper.put(this.#at(note), this.onsets[note] ?? 0);
  }

  /** The most that a note of an onset has to be late, in ticks, and the number of the reason for it. */
  #heldBack(from: number, to: number): { readonly late: number; readonly clamp: number } {
    let [late, clamp] = [0, 1];
    for (let note = from; note < to; note++) {
      const earliest = this.#keeper.earliest(this.#at(note));
      const by = earliest - (this.#wanted[note] ?? 0);
      if (by <= late) continue;
      late = by;
      const isBehindNote = this.#keeper.behindNote(this.#one) === earliest;
      clamp = earliest === 0 ? 1 : isBehindNote ? 2 : 3;
    }
    return { late, clamp };
  }

  #at(note: number): Standing {
    const { channel, pitch, onset } = this.#notes;
    this.#one.channel = channel[note] ?? 0;
    this.#one.pitch = pitch[note] ?? 0;
    this.#one.onset = onset[note] ?? 0;
    return this.#one;
  }

  /** The earliest tick behind the note of its pitch that is before it in its chord, which begins with `first`. */
  #behindItsPitch(note: number, first: number): number {
    const { pitch, onset } = this.#notes;
    const before = this.#ofPitch[pitch[note] ?? 0] ?? -1;
    if (before < first) return 0;
    return (this.onsets[before] ?? 0) + ((onset[note] ?? 0) > (onset[before] ?? 0) ? 1 : 0);
  }

  /** A note that is heard late, or starts later than it was played, is released as much later. */
  #release(note: number): void {
    const clock = this.#clock;
    const [start, played] = [this.onsets[note] ?? 0, this.#notes.onset[note] ?? 0];
    const [isLate, isDelayed] = [start > (this.#wanted[note] ?? 0), start > played];
    if (!isLate && !isDelayed) return;
    const ms = clock.ms(start);
    const late = isLate ? ms - (this.wantedMs[note] ?? 0) : 0;
    const by = Math.max(late, isDelayed ? ms - clock.ms(played) : 0);
    this.releases[note] = clock.tickAt(clock.ms(this.#notes.release[note] ?? 0) + by);
  }
}
