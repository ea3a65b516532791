import type { Span } from '../../midi/index.js';
import { LineNote, type Measures } from '../analyse/index.js';

/** What may have come out otherwise about a note. */
export type StepMeasure =
  | 'heldMs'
  | 'heldTicks'
  | 'paceMs'
  | 'paceTicks'
  | 'heldShare'
  | 'overlapsNext'
  | 'overlapsPrevious';

/** A span whose numbers are written anew with each note. */
type SpanInHand = { -readonly [K in keyof Span]: number };

const unmeasured = (): SpanInHand => ({ ms: Number.NaN, ticks: 0 });

/**
 * One note of a line after another, each as it was played, or taken for one that was played a little otherwise. One
 * object serves all of them, and so do its spans: neither may be kept. (An object and two spans for each note that a
 * rule asks about took a third of the time of deciding.)
 */
export class NoteInHand extends LineNote {
  readonly #of: Measures;
  #note = 0;
  #onset = 0;
  readonly #held = unmeasured();
  readonly #pace = unmeasured();
  #isHeldMeasured = false;
  #isPaceMeasured = false;
  readonly #otherHeld = unmeasured();
  readonly #otherPace = unmeasured();
  #takesHeld = false;
  #takesPace = false;
  #takesShare = false;
  #otherShare = Number.NaN;
  #takesNext = false;
  #takesPrevious = false;

  constructor(of: Measures) {
    super(of, 0);
    this.#of = of;
  }

  /** Is the note with an index from now on, as it was played. */
  at(note: number): this {
    this.become(note);
    this.#note = note;
    this.#onset = this.#of.onsetOf(note);
    this.#isHeldMeasured = false;
    this.#isPaceMeasured = false;
    this.asPlayed();
    return this;
  }

  /** Takes nothing otherwise any more. */
  asPlayed(): void {
    this.#takesHeld = false;
    this.#takesPace = false;
    this.#takesShare = false;
    this.#takesNext = false;
    this.#takesPrevious = false;
  }

  /**
   * Takes a measure for another; of what is yes or no, for the other answer. Of times and ticks, which have steps of their
   * own, the last that is taken stands.
   */
  take(measure: StepMeasure, to: number): void {
    if (measure === 'heldMs' || measure === 'heldTicks') {
      this.#takesHeld = true;
      takeSpan(this.#otherHeld, this.#measuredHeld(), measure === 'heldMs', to);
    } else if (measure === 'paceMs' || measure === 'paceTicks') {
      this.#takesPace = true;
      takeSpan(this.#otherPace, this.#measuredPace(), measure === 'paceMs', to);
    } else if (measure === 'heldShare') {
      this.#takesShare = true;
      this.#otherShare = to;
    } else if (measure === 'overlapsNext') this.#takesNext = true;
    else this.#takesPrevious = true;
  }

  override get held(): Span {
    return this.#takesHeld ? this.#otherHeld : this.#measuredHeld();
  }

  override get pace(): Span {
    return this.#takesPace ? this.#otherPace : this.#measuredPace();
  }

  override get heldShare(): number {
    return this.#takesShare ? this.#otherShare : this.#of.heldShare(this.#note);
  }

  override get overlapsNext(): boolean {
    return this.#of.overlapsNext(this.#note) !== this.#takesNext;
  }

  override get overlapsPrevious(): boolean {
    const before = this.#of.topOf(this.#onset - 1);
    return (before !== undefined && this.#of.overlapsNext(before)) !== this.#takesPrevious;
  }

  override get onset(): number {
    return this.#onset;
  }

  #measuredHeld(): Span {
    const held = this.#held;
    if (this.#isHeldMeasured) return held;
    this.#isHeldMeasured = true;
    held.ms = this.#of.heldMs(this.#note);
    held.ticks = this.#of.heldTicks(this.#note);
    return held;
  }

  #measuredPace(): Span {
    const pace = this.#pace;
    if (this.#isPaceMeasured) return pace;
    this.#isPaceMeasured = true;
    const onset = this.#onset;
    const isLast = this.#of.isLast(onset);
    pace.ms = isLast ? this.#measuredHeld().ms : this.#of.intervalMs(onset);
    pace.ticks = isLast ? this.#measuredHeld().ticks : this.#of.intervalTicks(onset);
    return pace;
  }
}

function takeSpan(other: SpanInHand, played: Span, isMs: boolean, to: number): void {
  other.ms = isMs ? to : played.ms;
  other.ticks = isMs ? played.ticks : to;
}
