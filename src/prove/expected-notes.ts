/** What a note is meant to sound with. */
export interface MeantNote {
  readonly tick: number;
  /** The MIDI note. */
  readonly pitch: number;
  /** Which of the part's melody notes it is, from 0, in file order of the note-ons. */
  readonly onOrdinal: number;
  /** The articulation's name in the map. */
  readonly articulation: string;
  /**
   * Which onset of its part it is of, from 0: notes of one were struck together as they were played. Found in the file
   * where it is not known.
   */
  readonly onset?: number;
}

/** Meant notes that wait to be heard. */
export interface Waiting {
  /** The next meant note of this tick and pitch, which then waits no more. */
  take(tick: number, pitch: number): MeantNote | undefined;
  /** Those that were not taken. */
  left(): readonly MeantNote[];
}

/** Notes are known by tick and pitch, and among equals by their order, so that one lost note does not shift the others. */
export function waitingNotes(meant: readonly MeantNote[]): Waiting {
  const queues = new Map<number, { readonly notes: MeantNote[]; next: number }>();
  const keyOf = (tick: number, pitch: number) => tick * 128 + pitch;
  for (const note of [...meant].sort((a, b) => a.onOrdinal - b.onOrdinal)) {
    const queue = queues.get(keyOf(note.tick, note.pitch));
    if (queue) queue.notes.push(note);
    else queues.set(keyOf(note.tick, note.pitch), { notes: [note], next: 0 });
  }
  return {
    take(tick, pitch) {
      const queue = queues.get(keyOf(tick, pitch));
      const note = queue?.notes[queue.next];
      if (queue && note) queue.next += 1;
      return note;
    },
    left: () => [...queues.values()].flatMap(({ notes, next }) => notes.slice(next)),
  };
}
