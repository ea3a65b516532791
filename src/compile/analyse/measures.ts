import {
  type Clock,
  endless,
  firstNote,
  msBetween,
  type Notes,
  noteEnd,
  noteTick,
  nothing,
  type Onsets,
  offOf,
  type Span,
  spanBetween,
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
  readonly #isLengthened: boolean;
  /** The onset of each note. */
  readonly #onset: Uint32Array;
  #silentFrom: Float64Array | undefined;
  #shares: Float64Array | undefined;

  constructor({ notes, onsets, clock, marks, controls, isLengthened }: Played) {
    this.notes = notes;
    this.onsets = onsets;
    this.clock = clock;
    this.marks = marks;
    this.controls = controls;
    this.#isLengthened = isLengthened;
    this.#onset = new Uint32Array(notes.length);
    for (let onset = 0; onset < onsets.length; onset++)
      this.#onset.fill(onset, firstNote(onsets, onset), firstNote(onsets, onset + 1));
  }

  onsetOf(note: number): number {
    return this.#onset[note] ?? 0;
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
    return spanBetween(this.clock, noteTick(this.notes, note), this.soundingEnd(note));
  }

  /** From an onset to the next; undefined for the last. */
  interval(onset: number): Span | undefined {
    const next = this.onsetTick(onset + 1);
    return next === undefined ? undefined : spanBetween(this.clock, this.onsetTick(onset) ?? 0, next);
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
    const end = this.soundingEnd(note);
    return end >= next || msBetween(this.clock, end, next) <= overlapTolerance;
  }

  /** The share of its interval for which a note is held. */
  heldShare(note: number): number {
    this.#shares ??= this.#sharesOfAll();
    return this.#shares[note] ?? 1;
  }

  #sharesOfAll(): Float64Array {
    const { notes, onsets } = this;
    const intervals = shareIntervals({
      length: onsets.length,
      pace: (onset) => this.interval(onset)?.ms ?? this.held(topNote(onsets, onset)).ms,
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
