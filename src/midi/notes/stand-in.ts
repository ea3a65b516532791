import type { ControllerValues, MeasuredNote, Span } from '../line.js';

/** A note that stands for another, and is like it in all that a class on top of this does not say otherwise. */
export class StandIn implements MeasuredNote {
  #note: MeasuredNote;

  constructor(note: MeasuredNote) {
    this.#note = note;
  }

  /** The note that it stands for. */
  protected get original(): MeasuredNote {
    return this.#note;
  }

  /** From now on it stands for another note. */
  protected standFor(note: MeasuredNote): void {
    this.#note = note;
  }

  get onIndex(): number {
    return this.#note.onIndex;
  }

  get offIndex(): number {
    return this.#note.offIndex;
  }

  get tick(): number {
    return this.#note.tick;
  }

  get endTick(): number {
    return this.#note.endTick;
  }

  get pitch(): number {
    return this.#note.pitch;
  }

  get velocity(): number {
    return this.#note.velocity;
  }

  get onset(): number {
    return this.#note.onset;
  }

  get held(): Span {
    return this.#note.held;
  }

  get pace(): Span {
    return this.#note.pace;
  }

  get heldShare(): number {
    return this.#note.heldShare;
  }

  get restBefore(): Span {
    return this.#note.restBefore;
  }

  get restAfter(): Span {
    return this.#note.restAfter;
  }

  get overlapsNext(): boolean {
    return this.#note.overlapsNext;
  }

  get overlapsPrevious(): boolean {
    return this.#note.overlapsPrevious;
  }

  get leap(): number | null {
    return this.#note.leap;
  }

  get repeatsPrevious(): boolean {
    return this.#note.repeatsPrevious;
  }

  get repeatsNext(): boolean {
    return this.#note.repeatsNext;
  }

  get chord(): number {
    return this.#note.chord;
  }

  get controllers(): ControllerValues {
    return this.#note.controllers;
  }

  get pedalDown(): boolean {
    return this.#note.pedalDown;
  }

  get marks(): ReadonlySet<string> {
    return this.#note.marks;
  }
}
