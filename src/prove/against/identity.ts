import type { MidiEvent } from '../../midi/index.js';
import { isNote } from '../pairs.js';

/** One number for all channels (0–15) on which the notes of one part may stand. */
export type NoteChannel = (channel: number) => number;

/**
 * What an event says, as a text: equal where two events say the same. Its time, and whether the file leaves out its
 * status byte, do not count; whether a release was written as a note-on does.
 */
export function identityOf(event: MidiEvent, noteChannel: NoteChannel): string {
  const { deltaTime: _, ...said } = event;
  const channel = isNote(event) ? { channel: noteChannel(event.channel) } : {};
  const entries = Object.entries({ ...said, ...channel }).flatMap(([name, value]): [string, unknown][] =>
    name === 'running' || value === undefined ? [] : [[name, isBytes(value) ? Array.from(value) : value]],
  );
  return JSON.stringify(entries.sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)));
}

/** The same question for two events, answered at once where they are of the kinds that are most of a track. */
export function isSame(a: MidiEvent, b: MidiEvent, noteChannel: NoteChannel): boolean {
  if (a.type !== b.type) return false;
  if (isNote(a) && isNote(b))
    return (
      a.noteNumber === b.noteNumber &&
      a.velocity === b.velocity &&
      isWrittenAsStrike(a) === isWrittenAsStrike(b) &&
      noteChannel(a.channel) === noteChannel(b.channel)
    );
  if (a.type === 'controller' && b.type === 'controller')
    return a.controllerType === b.controllerType && a.value === b.value && a.channel === b.channel;
  return identityOf(a, noteChannel) === identityOf(b, noteChannel);
}

/** Whether a release stands in the file as a note-on with velocity 0. */
function isWrittenAsStrike(event: MidiEvent): boolean {
  return 'byte9' in event && event.byte9 === true;
}

function isBytes(value: unknown): value is ArrayLike<number> {
  return ArrayBuffer.isView(value) || Array.isArray(value);
}
