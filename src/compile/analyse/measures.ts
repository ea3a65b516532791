import {
  type Clock,
  endless,
  firstNote,
  type Notes,
  noteEnd,
  noteTick,
  nothing,
  type Onsets,
  offOf,
  roundedMs,
  type Span,
  spanBetween,
  timesOf,
  topNote,
} from '../../midi/index.js';
import type { Controls } from './controls.js';
import { shareIntervals, shareOf } from './share.js';

/** A release this much before the next onset still counts as overlapping it. Unit: ms. */
export const overlapTolerance = 10;

/** What a line is measured from. */
export interface Played {
  readonly notes: Notes;
  readonly onsets: Onsets;
  readonly clock: Clock;
  /** The marks that each onset carries. */
  readonly marks: readonly ReadonlySet<string>[];
  /** Of the part's channel. */
  readonly controls: Controls;
  /** Whether the pedal lengthens notes. */
  readonly isLengthened: boolean;
}

/** The notes of a line in columns, and everything that can be measured on them, when it is asked for. */
export class Measures {
  readonly notes: Notes;
  readonly onsets: Onsets;
  readonly clock: Clock;
  readonly marks: readonly ReadonlySet<string>[];
  readonly controls: Controls;
  /** The onset of each note. */
  readonly onset: Uint32Array;
  readonly #isLengthened: boolean;
  /** When each note begins, and ends with the pedal counted in. Unit: ms. */
  #begins: Float64Array | undefined;
  #ends: Float64Array | undefined;
  #silentFrom: Float64Array | undefined;
  #shares: Float64Array | undefined;

  constructor({ notes, onsets, clock, marks, controls, isLengthened }: Played) {
    this.notes = notes;
    this.onsets = onsets;
    this.clock = clock;
    this.marks = marks;
    this.controls = controls;
    this.#isLengthened = isLengthened;
    this.onset = new Uint32Array(notes.length);
    for (let onset = 0; onset < onsets.length; onset++)
      this.onset.fill(onset, firstNote(onsets, onset), firstNote(onsets, onset + 1));
  }

  onsetOf(note: number): number {
    return this.onset[note] ?? 0;
  }

  /** The tick of an onset's first note; undefined where there is no such onset. */
  onsetTick(onset: number): number | undefined {
    return onset < 0 || onset >= this.onsets.length
      ? undefined
      : noteTick(this.notes, firstNote(this.onsets, onset));
  }

  /** The highest note of an onset; undefined where there is no such onset. */
  topOf(onset: number): number | undefined {
    return onset < 0 || onset >= this.onsets.length ? undefined : topNote(this.onsets, onset);
  }

  /** Where a note ends, the pedal counted in. */
  soundingEnd(note: number): number {
    const end = noteEnd(this.notes, note);
    return this.#isLengthened ? this.controls.heldTo(offOf(this.notes, note), end) : end;
  }

  held(note: number): Span {
    const ms = roundedMs(this.#beginOf(note), this.#endOf(note));
    return { ms, ticks: this.soundingEnd(note) - noteTick(this.notes, note) };
  }

  /** From an onset to the next; undefined for the last. */
  interval(onset: number): Span | undefined {
    if (onset + 1 >= this.onsets.length) return undefined;
    const [one, next] = [firstNote(this.onsets, onset), firstNote(this.onsets, onset + 1)];
    const ms = roundedMs(this.#beginOf(one), this.#beginOf(next));
    return { ms, ticks: noteTick(this.notes, next) - noteTick(this.notes, one) };
  }

  /** From an onset to the next; of the last, how long its top note is held. */
  pace(onset: number): Span {
    return this.interval(onset) ?? this.held(topNote(this.onsets, onset));
  }

  /** The silence behind all that was struck up to an onset; endless after the last, and before the first (−1). */
  restAfter(onset: number): Span {
    const next = this.onsetTick(onset + 1);
    if (onset < 0 || next === undefined) return endless;
    this.#silentFrom ??= this.#latestEnds();
    const from = this.#silentFrom[onset] ?? 0;
    return from >= next ? nothing : spanBetween(this.clock, from, next);
  }

  /** Whether a note is held at or past the next onset, less 10 ms. */
  overlapsNext(note: number): boolean {
    const next = this.onsetTick(this.onsetOf(note) + 1);
    if (next === undefined) return false;
    const following = this.#beginOf(firstNote(this.onsets, this.onsetOf(note) + 1));
    return this.soundingEnd(note) >= next || roundedMs(this.#endOf(note), following) <= overlapTolerance;
  }

  /** The share of its interval for which a note is held. */
  heldShare(note: number): number {
    this.#shares ??= this.#sharesOfAll();
    return this.#shares[note] ?? 1;
  }

  #beginOf(note: number): number {
    this.#begins ??= timesOf(this.clock, this.notes.tick);
    return this.#begins[note] ?? 0;
  }

  #endOf(note: number): number {
    this.#ends ??= this.#endsOfAll();
    return this.#ends[note] ?? 0;
  }

  #endsOfAll(): Float64Array {
    const ends = new Float64Array(this.notes.length);
    for (let note = 0; note < ends.length; note++) ends[note] = this.clock.ms(this.soundingEnd(note));
    return ends;
  }

  #sharesOfAll(): Float64Array {
    const { notes, onsets } = this;
    const intervals = shareIntervals({
      length: onsets.length,
      pace: (onset) => this.pace(onset).ms,
      restAfter: (onset) => this.restAfter(onset).ms,
    });
    const shares = new Float64Array(notes.length);
    for (let onset = 0; onset < onsets.length; onset++)
      for (let note = firstNote(onsets, onset); note < firstNote(onsets, onset + 1); note++)
        shares[note] = shareOf(this.held(note).ms, intervals, onset);
    return shares;
  }

  /** For each onset the latest end of all that was struck up to it. */
  #latestEnds(): Float64Array {
    const latest = new Float64Array(this.onsets.length);
    let end = 0;
    for (let note = 0; note < this.notes.length; note++) {
      end = Math.max(end, this.soundingEnd(note));
      latest[this.onsetOf(note)] = end;
    }
    return latest;
  }
}
