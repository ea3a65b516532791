import { channelOf, type Events, firstData, isNoteOn, kindOf, OpenNotes } from '../midi/index.js';

/** The note-ons and note-offs of a track that belong together. */
export interface Pairs {
  /** For each event of the track the index of the other of its note; −1 where there is none. */
  readonly partner: Int32Array;
  /** Releases that had no open note. */
  readonly strays: readonly number[];
}

/** Whether an event strikes a key or lets it go. */
export function isNote(events: Events, event: number): boolean {
  const kind = kindOf(events, event);
  return kind === 0x80 || kind === 0x90;
}

/** A channel (0–15) and a key in one number, 0–2047. */
export function keyOf(events: Events, event: number): number {
  return (channelOf(events, event) << 7) | firstData(events, event);
}

/** How many of these numbers there are. */
export const keyCount = 16 * 128;

/** Pairs the notes that are picked: a release ends the earliest open note of its channel and key. */
export function pairsOf(events: Events, isPicked: (event: number) => boolean): Pairs {
  const partner = new Int32Array(events.length).fill(-1);
  const strays: number[] = [];
  const open = new OpenNotes(events.length, keyCount);
  for (let event = 0; event < events.length; event++) {
    if (!isNote(events, event) || !isPicked(event)) continue;
    const key = keyOf(events, event);
    if (isNoteOn(events, event)) {
      open.add(key, event);
      continue;
    }
    const on = open.take(key);
    if (on < 0) strays.push(event);
    else {
      partner[on] = event;
      partner[event] = on;
    }
  }
  return { partner, strays };
}
