import { type MidiEvent, parseMidi } from 'midi-file';
import {
  type Events,
  newFile,
  noteAt,
  type PairedNote,
  pairNotes,
  type Track,
} from '../../src/midi/index.js';
import { songOf } from './song.js';

/** An event with its absolute tick. */
export interface TimedEvent {
  readonly tick: number;
  readonly event: MidiEvent;
}

/** The events of a track, as `midi-file` reads them once they are written; none of no track. */
export function eventsOf(track: Pick<Track, 'columns'> | undefined): readonly TimedEvent[] {
  const file = track && newFile(480, [track.columns]);
  if (track && !file) throw new Error('a time that no file can say');
  let tick = 0;
  return (file ? (parseMidi(file).tracks[0] ?? []) : []).map((event) => {
    tick += event.deltaTime;
    return { tick, event };
  });
}

/** Events as `midi-file` has them, in columns: written by it, and read. */
export function columnsOf(events: readonly MidiEvent[]): Events {
  const [track] = songOf([[...events]]).tracks;
  if (!track) throw new Error('no track');
  return track.columns;
}

/** The notes of a track on a channel (0–15) as objects. */
export function notesOn({ columns }: Pick<Track, 'columns'>, channel: number): readonly PairedNote[] {
  const { notes } = pairNotes(columns, channel);
  return Array.from({ length: notes.length }, (_, note) => noteAt(notes, note));
}
