import type { ControllerValues, MeasuredNote, Span } from '../line.js';

/** What may be otherwise about a note than about the one that it stands for. */
export type NoteChange = Partial<
  Pick<
    MeasuredNote,
    | 'onIndex'
    | 'offIndex'
    | 'tick'
    | 'endTick'
    | 'held'
    | 'pace'
    | 'heldShare'
    | 'overlapsNext'
    | 'overlapsPrevious'
  >
>;

/** A note that differs from another in some things only: moved, or taken for one that was played a little otherwise. */
export function changedNote(note: MeasuredNote, change: NoteChange): MeasuredNote {
  return new ChangedNote(note, change);
}

class ChangedNote implements MeasuredNote {
  readonly #note: MeasuredNote;
  readonly #change: NoteChange;

  constructor(note: MeasuredNote, change: NoteChange) {
    this.#note = note;
    this.#change = change;
  }

  get onIndex(): number {
    return this.#change.onIndex ?? this.#note.onIndex;
  }

  get offIndex(): number {
    return this.#change.offIndex ?? this.#note.offIndex;
  }

  get tick(): number {
    return this.#change.tick ?? this.#note.tick;
  }

  get endTick(): number {
    return this.#change.endTick ?? this.#note.endTick;
  }

  get held(): Span {
    return this.#change.held ?? this.#note.held;
  }

  get pace(): Span {
    return this.#change.pace ?? this.#note.pace;
  }

  get heldShare(): number {
    return this.#change.heldShare ?? this.#note.heldShare;
  }

  get overlapsNext(): boolean {
    return this.#change.overlapsNext ?? this.#note.overlapsNext;
  }

  get overlapsPrevious(): boolean {
    return this.#change.overlapsPrevious ?? this.#note.overlapsPrevious;
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

  get restBefore(): Span {
    return this.#note.restBefore;
  }

  get restAfter(): Span {
    return this.#note.restAfter;
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
