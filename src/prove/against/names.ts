import { type Events, longData, metaType, statusOf } from '../../midi/index.js';

/** Meta events as Standard MIDI File 1.0 has them, with the length that it gives them where it gives one. Unit: bytes. */
const metaEvents: Readonly<Record<number, readonly [name: string, length?: number]>> = {
  0: ['sequenceNumber', 2],
  1: ['text'],
  2: ['copyrightNotice'],
  3: ['trackName'],
  4: ['instrumentName'],
  5: ['lyrics'],
  6: ['marker'],
  7: ['cuePoint'],
  32: ['channelPrefix', 1],
  33: ['portPrefix', 1],
  47: ['endOfTrack', 0],
  81: ['setTempo', 3],
  84: ['smpteOffset', 5],
  88: ['timeSignature', 4],
  89: ['keySignature', 2],
  127: ['sequencerSpecific'],
};

/** What an event without a channel is: the name of a meta event that is as the standard has it, else `unknownMeta`. */
export function eventName(events: Events, event: number): string {
  const status = statusOf(events, event);
  if (status !== 0xff) return status === 0xf0 ? 'sysEx' : 'endSysEx';
  const [name, length] = metaEvents[metaType(events, event)] ?? [];
  const data = longData(events, event);
  if (name === undefined || (length ?? data.length) !== data.length) return 'unknownMeta';
  return isMeaningful(name, data) ? name : 'unknownMeta';
}

/** A beat shorter than a 1024th note has no name. */
const shortestUnit = 10;

/** The longest text that is told as one. Unit: bytes. */
const longestText = 8192;

/** Whether a meta event says what its kind can mean. */
function isMeaningful(name: string, data: Uint8Array): boolean {
  const [one = 0, two = 0, , four = 0] = data;
  switch (name) {
    case 'smpteOffset':
      return one < 0x80;
    case 'timeSignature':
      return two <= shortestUnit && four !== 0;
    case 'sequencerSpecific':
      return true;
    default:
      return data.length <= longestText;
  }
}
