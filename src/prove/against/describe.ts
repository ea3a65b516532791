import { type Events, firstData, isNoteOn, kindOf, secondData } from '../../midi/index.js';
import { isNote } from '../pairs.js';
import { keyName } from '../violations.js';
import { eventName } from './names.js';

/** An event in a message: `the note C4 (60)`, `controller 11 at 64`, `the event text`. */
export function describeEvent(events: Events, event: number, middleC: 3 | 4 | 5): string {
  const one = firstData(events, event);
  const two = secondData(events, event);
  if (isNote(events, event))
    return `${isNoteOn(events, event) ? 'the note' : 'the release of'} ${keyName(one, middleC)}`;
  switch (kindOf(events, event)) {
    case 0xa0:
      return `pressure ${two} on ${keyName(one, middleC)}`;
    case 0xb0:
      return `controller ${one} at ${two}`;
    case 0xc0:
      return `program ${one}`;
    case 0xd0:
      return `channel pressure ${one}`;
    case 0xe0:
      return `pitch bend ${one + (two << 7) - 0x2000}`;
    default:
      return `the event ${eventName(events, event)}`;
  }
}
