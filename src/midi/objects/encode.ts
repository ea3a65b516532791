import { EventBuilder, type Events } from '../events/index.js';
import type { MessageEvent, MetaEvent, MidiEvent } from './event.js';

/** The columns of events that are objects, on the ticks that their delta times come to. */
export function columnsOf(objects: readonly MidiEvent[]): Events {
  const builder = new EventBuilder();
  let tick = 0;
  let inForce = 0;
  for (const object of objects) {
    tick += object.deltaTime;
    if (object.type === 'sysEx') builder.exclusive(tick, 0xf0, object.data);
    else if (object.type === 'endSysEx') builder.exclusive(tick, 0xf7, object.data);
    else if (isMessage(object)) {
      const [status, one, two] = messageBytes(object);
      if (object.running && status === inForce) builder.runningMessage(tick, status, one, two);
      else builder.message(tick, status, one, two);
      inForce = status;
    } else builder.meta(tick, ...metaBytes(object));
  }
  return builder.events();
}

function isMessage(event: MessageEvent | MetaEvent): event is MessageEvent {
  return 'channel' in event && event.type !== 'channelPrefix';
}

type Bytes = readonly [status: number, one: number, two?: number];

/** The bytes of a channel message. */
export function messageBytes(event: MessageEvent): Bytes {
  const { channel } = event;
  switch (event.type) {
    case 'noteOff':
      return [(event.byte9 ? 0x90 : 0x80) | channel, event.noteNumber, event.velocity];
    case 'noteOn':
      return [0x90 | channel, event.noteNumber, event.velocity];
    case 'noteAftertouch':
      return [0xa0 | channel, event.noteNumber, event.amount];
    case 'controller':
      return [0xb0 | channel, event.controllerType, event.value];
    case 'programChange':
      return [0xc0 | channel, event.programNumber];
    case 'channelAftertouch':
      return [0xd0 | channel, event.amount];
    case 'pitchBend': {
      const value = event.value + 0x2000;
      return [0xe0 | channel, value & 0x7f, (value >> 7) & 0x7f];
    }
  }
}

const frames: Readonly<Record<number, number>> = { 24: 0x00, 25: 0x20, 29: 0x40, 30: 0x60 };

function metaBytes(event: MetaEvent): readonly [type: number, data: ArrayLike<number>] {
  switch (event.type) {
    case 'sequenceNumber':
      return [0x00, [event.number >> 8, event.number & 0xff]];
    case 'text':
      return [0x01, latin1(event.text)];
    case 'copyrightNotice':
      return [0x02, latin1(event.text)];
    case 'trackName':
      return [0x03, latin1(event.text)];
    case 'instrumentName':
      return [0x04, latin1(event.text)];
    case 'lyrics':
      return [0x05, latin1(event.text)];
    case 'marker':
      return [0x06, latin1(event.text)];
    case 'cuePoint':
      return [0x07, latin1(event.text)];
    case 'channelPrefix':
      return [0x20, [event.channel]];
    case 'portPrefix':
      return [0x21, [event.port]];
    case 'endOfTrack':
      return [0x2f, []];
    case 'setTempo': {
      const { microsecondsPerBeat: value } = event;
      return [0x51, [value >> 16, (value >> 8) & 0xff, value & 0xff]];
    }
    case 'smpteOffset': {
      const { hour, frameRate, min, sec, frame, subFrame } = event;
      return [0x54, [hour | (frames[frameRate] ?? 0), min, sec, frame, subFrame]];
    }
    case 'timeSignature': {
      const { numerator, denominator, metronome, thirtyseconds } = event;
      return [0x58, [numerator, Math.round(Math.log2(denominator)), metronome, thirtyseconds || 8]];
    }
    case 'keySignature':
      return [0x59, [event.key & 0xff, event.scale]];
    case 'sequencerSpecific':
      return [0x7f, event.data];
    case 'unknownMeta':
      return [event.metatypeByte, event.data];
  }
}

/** A text as events hold it: a character for each byte. */
function latin1(text: string): Uint8Array {
  return Uint8Array.from(text, (letter) => letter.charCodeAt(0));
}
