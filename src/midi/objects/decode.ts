import {
  channelOf,
  type Events,
  firstData,
  isRunning,
  kindOf,
  longData,
  metaType,
  secondData,
  statusOf,
  tickOf,
} from '../events/index.js';
import type { MessageEvent, MidiEvent } from './event.js';
import { isFaithful } from './faithful.js';

const texts = [
  'text',
  'copyrightNotice',
  'trackName',
  'instrumentName',
  'lyrics',
  'marker',
  'cuePoint',
] as const;

const frameRates = [24, 25, 29, 30] as const;

/** All events of a track as objects. */
export function objectsOf(events: Events): readonly MidiEvent[] {
  const objects: MidiEvent[] = [];
  let before = 0;
  for (let event = 0; event < events.length; event++) {
    const tick = tickOf(events, event);
    objects.push(objectAt(events, event, tick - before));
    before = tick;
  }
  return objects;
}

function objectAt(events: Events, event: number, deltaTime: number): MidiEvent {
  const status = statusOf(events, event);
  if (status < 0xf0) return messageAt(events, event, deltaTime);
  const data = longData(events, event);
  if (status === 0xff) return metaOf(metaType(events, event), data, deltaTime);
  return { deltaTime, type: status === 0xf0 ? 'sysEx' : 'endSysEx', data };
}

// Written out: objects that are put together from others take V8 ten times as long.
function messageAt(events: Events, event: number, deltaTime: number): MessageEvent {
  const channel = channelOf(events, event);
  const one = firstData(events, event);
  const two = secondData(events, event);
  const said = messageOf(kindOf(events, event), { deltaTime, channel, one, two });
  return isRunning(events, event) ? { ...said, running: true } : said;
}

interface Said {
  readonly deltaTime: number;
  readonly channel: number;
  readonly one: number;
  readonly two: number;
}

function messageOf(kind: number, { deltaTime, channel, one, two }: Said): MessageEvent {
  switch (kind) {
    case 0x80:
      return { deltaTime, channel, type: 'noteOff', noteNumber: one, velocity: two };
    case 0x90:
      return two > 0
        ? { deltaTime, channel, type: 'noteOn', noteNumber: one, velocity: two }
        : { deltaTime, channel, type: 'noteOff', noteNumber: one, velocity: 0, byte9: true };
    case 0xa0:
      return { deltaTime, channel, type: 'noteAftertouch', noteNumber: one, amount: two };
    case 0xb0:
      return { deltaTime, channel, type: 'controller', controllerType: one, value: two };
    case 0xc0:
      return { deltaTime, channel, type: 'programChange', programNumber: one };
    case 0xd0:
      return { deltaTime, channel, type: 'channelAftertouch', amount: one };
    default:
      return { deltaTime, channel, type: 'pitchBend', value: one + (two << 7) - 0x2000 };
  }
}

function metaOf(type: number, data: Uint8Array, deltaTime: number): MidiEvent {
  const about = { deltaTime, meta: true } as const;
  if (!isFaithful(data, type, 0, data.length))
    return { ...about, type: 'unknownMeta', data, metatypeByte: type };
  const text = texts[type - 1];
  if (text !== undefined) return { ...about, type: text, text: String.fromCharCode(...data) };
  const [one = 0, two = 0, three = 0, four = 0, five = 0] = data;
  switch (type) {
    case 0x00:
      return { ...about, type: 'sequenceNumber', number: (one << 8) | two };
    case 0x20:
      return { ...about, type: 'channelPrefix', channel: one };
    case 0x21:
      return { ...about, type: 'portPrefix', port: one };
    case 0x2f:
      return { ...about, type: 'endOfTrack' };
    case 0x51:
      return { ...about, type: 'setTempo', microsecondsPerBeat: (one << 16) | (two << 8) | three };
    case 0x54: {
      const frameRate = frameRates[one >> 5] ?? 24;
      const rest = { hour: one & 0x1f, min: two, sec: three, frame: four, subFrame: five };
      return { ...about, type: 'smpteOffset', frameRate, ...rest };
    }
    case 0x58: {
      const signature = { numerator: one, denominator: 1 << two, metronome: three, thirtyseconds: four };
      return { ...about, type: 'timeSignature', ...signature };
    }
    case 0x59:
      return { ...about, type: 'keySignature', key: (one << 24) >> 24, scale: two };
    case 0x7f:
      return { ...about, type: 'sequencerSpecific', data };
    default:
      return { ...about, type: 'unknownMeta', data, metatypeByte: type };
  }
}
