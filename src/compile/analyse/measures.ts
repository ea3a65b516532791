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
  #held: Float64Array | undefined;
  #silentFrom: Float64Array | undefined;
  #overlaps: Uint8Array | undefined;
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
    return { ms: this.heldMs(note), ticks: this.heldTicks(note) };
  }

  heldMs(note: number): number {
    this.#held ??= this.#heldOfAll();
    return this.#held[note] ?? 0;
  }

  heldTicks(note: number): number {
    return this.soundingEnd(note) - noteTick(this.notes, note);
  }

  isLast(onset: number): boolean {
    return onset + 1 >= this.onsets.length;
  }

  /** From an onset to the next; undefined for the last. */
  interval(onset: number): Span | undefined {
    if (this.isLast(onset)) return undefined;
    return { ms: this.intervalMs(onset), ticks: this.intervalTicks(onset) };
  }

  /** From an onset to the next; of all but the last. */
  intervalMs(onset: number): number {
    const { onsets } = this;
    return roundedMs(this.#beginOf(firstNote(onsets, onset)), this.#beginOf(firstNote(onsets, onset + 1)));
  }

  intervalTicks(onset: number): number {
    const { notes, onsets } = this;
    return noteTick(notes, firstNote(onsets, onset + 1)) - noteTick(notes, firstNote(onsets, onset));
  }

  /** From an onset to the next; of the last, how long its top note is held. Unit: ms. */
  paceMs(onset: number): number {
    return this.isLast(onset) ? this.heldMs(topNote(this.onsets, onset)) : this.intervalMs(onset);
  }

  /** The silence behind all that was struck up to an onset; endless after the last, and before the first (−1). */
  restAfter(onset: number): Span {
    const next = this.onsetTick(onset + 1);
    if (onset < 0 || next === undefined) return endless;
    const from = this.#silentFromOf(onset);
    return from >= next ? nothing : spanBetween(this.clock, from, next);
  }

  /** The same in ms. */
  restAfterMs(onset: number): number {
    const next = this.onsetTick(onset + 1);
    if (onset < 0 || next === undefined) return endless.ms;
    const from = this.#silentFromOf(onset);
    return from >= next ? 0 : msBetween(this.clock, from, next);
  }

  /** Whether a note is held at or past the next onset, less 10 ms. */
  overlapsNext(note: number): boolean {
    this.#overlaps ??= this.#overlapsOfAll();
    return this.#overlaps[note] === 1;
  }

  /** The share of its interval for which a note is held. */
  heldShare(note: number): number {
    this.#shares ??= this.#sharesOfAll();
    return this.#shares[note] ?? 1;
  }

  #silentFromOf(onset: number): number {
    this.#silentFrom ??= this.#latestEnds();
    return this.#silentFrom[onset] ?? 0;
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

  #overlapsOfAll(): Uint8Array {
    const { notes, onsets } = this;
    const overlaps = new Uint8Array(notes.length);
    for (let onset = 0; onset + 1 < onsets.length; onset++) {
      const next = firstNote(onsets, onset + 1);
      const [tick, ms] = [noteTick(notes, next), this.#beginOf(next)];
      for (let note = firstNote(onsets, onset); note < next; note++) {
        const isPast = this.soundingEnd(note) >= tick;
        overlaps[note] = isPast || roundedMs(this.#endOf(note), ms) <= overlapTolerance ? 1 : 0;
      }
    }
    return overlaps;
  }

  #heldOfAll(): Float64Array {
    const held = new Float64Array(this.notes.length);
    for (let note = 0; note < held.length; note++)
      held[note] = roundedMs(this.#beginOf(note), this.#endOf(note));
    return held;
  }

  #sharesOfAll(): Float64Array {
    const { notes, onsets } = this;
    const intervals = shareIntervals({
      length: onsets.length,
      pace: (onset) => this.paceMs(onset),
      restAfter: (onset) => this.restAfterMs(onset),
    });
    const shares = new Float64Array(notes.length);
    for (let onset = 0; onset < onsets.length; onset++)
      for (let note = firstNote(onsets, onset); note < firstNote(onsets, onset + 1); note++)
        shares[note] = shareOf(this.heldMs(note), intervals, onset);
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
