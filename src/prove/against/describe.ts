import type { MidiEvent } from '../../midi/index.js';
import { isNote, isStrike } from '../pairs.js';
import { keyName } from '../violations.js';

/** An event in a message: `the note C4 (60)`, `controller 11 at 64`, `the text event`. */
export function describeEvent(event: MidiEvent, middleC: 3 | 4 | 5): string {
  if (isNote(event))
    return `${isStrike(event) ? 'the note' : 'the release of'} ${keyName(event.noteNumber, middleC)}`;
  switch (event.type) {
    case 'controller':
      return `controller ${event.controllerType} at ${event.value}`;
    case 'programChange':
      return `program ${event.programNumber}`;
    case 'pitchBend':
      return `pitch bend ${event.value}`;
    case 'channelAftertouch':
      return `channel pressure ${event.amount}`;
    case 'noteAftertouch':
      return `pressure ${event.amount} on ${keyName(event.noteNumber, middleC)}`;
    default:
      return `the event ${event.type}`;
  }
}
