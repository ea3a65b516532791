import type { MidiEvent, Track } from '../midi/index.js';

/** The note-ons and note-offs of a track that belong together, as indices of its events. */
export interface Pairs {
  /** The release of each note-on that has one. */
  readonly offOf: ReadonlyMap<number, number>;
  /** Releases that had no open note. */
  readonly strays: readonly number[];
}

type NoteEvent = Extract<MidiEvent, { type: 'noteOn' | 'noteOff' }>;

/** Whether an event strikes a key: a note-on with velocity 0 is a release (MIDI 1.0). */
export function isStrike(event: MidiEvent): event is Extract<MidiEvent, { type: 'noteOn' }> {
  return event.type === 'noteOn' && event.velocity > 0;
}

export function isNote(event: MidiEvent): event is NoteEvent {
  return event.type === 'noteOn' || event.type === 'noteOff';
}

/** Pairs the notes that are picked: a release ends the earliest open note of its channel and key. */
export function pairsOf({ events }: Track, isPicked: (event: NoteEvent, index: number) => boolean): Pairs {
  const open = new Map<number, { readonly indices: number[]; next: number }>();
  const offOf = new Map<number, number>();
  const strays: number[] = [];
  events.forEach((event, index) => {
    if (!isNote(event) || !isPicked(event, index)) return;
    const key = event.channel * 128 + event.noteNumber;
    const waiting = open.get(key);
    if (isStrike(event)) {
      if (waiting) waiting.indices.push(index);
      else open.set(key, { indices: [index], next: 0 });
      return;
    }
    const on = waiting?.indices[waiting.next];
    if (waiting && on !== undefined) {
      waiting.next += 1;
      offOf.set(on, index);
    } else strays.push(index);
  });
  return { offOf, strays };
}
