import type { MeasuredNote } from '../line.js';
import { StandIn } from './stand-in.js';

/** Where a note may stand otherwise than the one that it stands for. */
export type NoteChange = Partial<Pick<MeasuredNote, 'onIndex' | 'offIndex' | 'tick' | 'endTick'>>;

/** A note that stands or ends elsewhere; what was measured of it is as it was. */
export function changedNote(note: MeasuredNote, change: NoteChange): MeasuredNote {
  return new ChangedNote(note, change);
}

class ChangedNote extends StandIn {
  readonly #change: NoteChange;

  constructor(note: MeasuredNote, change: NoteChange) {
    super(note);
    this.#change = change;
  }

  override get onIndex(): number {
    return this.#change.onIndex ?? super.onIndex;
  }

  override get offIndex(): number {
    return this.#change.offIndex ?? super.offIndex;
  }

  override get tick(): number {
    return this.#change.tick ?? super.tick;
  }

  override get endTick(): number {
    return this.#change.endTick ?? super.endTick;
  }
}
