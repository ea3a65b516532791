interface Base<T> {
  readonly deltaTime: number;
  readonly type: T;
}

interface Meta<T> extends Base<T> {
  readonly meta?: true;
}

interface Message<T> extends Base<T> {
  readonly running?: true;
  readonly channel: number;
}

type Text = 'text' | 'copyrightNotice' | 'trackName' | 'instrumentName' | 'lyrics' | 'marker' | 'cuePoint';

type TextEvent = { readonly [T in Text]: Meta<T> & { readonly text: string } }[Text];

interface NoteData {
  readonly noteNumber: number;
  readonly velocity: number;
  readonly byte9?: true;
}

interface SmpteOffset {
  readonly frameRate: 24 | 25 | 26 | 29 | 30;
  readonly hour: number;
  readonly min: number;
  readonly sec: number;
  readonly frame: number;
  readonly subFrame: number;
}

interface Signature {
  readonly numerator: number;
  readonly denominator: number;
  readonly metronome: number;
  readonly thirtyseconds: number;
}

interface Data {
  readonly data: ArrayLike<number>;
}

export type MetaEvent =
  | TextEvent
  | (Meta<'sequenceNumber'> & { readonly number: number })
  | (Meta<'channelPrefix'> & { readonly channel: number })
  | (Meta<'portPrefix'> & { readonly port: number })
  | Meta<'endOfTrack'>
  | (Meta<'setTempo'> & { readonly microsecondsPerBeat: number })
  | (Meta<'smpteOffset'> & SmpteOffset)
  | (Meta<'timeSignature'> & Signature)
  | (Meta<'keySignature'> & { readonly key: number; readonly scale: number })
  | (Meta<'sequencerSpecific'> & Data)
  | (Meta<'unknownMeta'> & Data & { readonly metatypeByte: number });

export type ExclusiveEvent = (Base<'sysEx'> & Data) | (Base<'endSysEx'> & Data);

export type MessageEvent =
  | (Message<'noteOn'> & NoteData)
  | (Message<'noteOff'> & NoteData)
  | (Message<'noteAftertouch'> & { readonly noteNumber: number; readonly amount: number })
  | (Message<'controller'> & { readonly controllerType: number; readonly value: number })
  | (Message<'programChange'> & { readonly programNumber: number })
  | (Message<'channelAftertouch'> & { readonly amount: number })
  | (Message<'pitchBend'> & { readonly value: number });

/**
 * An event as an object, in the shape that `midi-file` gives it. A meta event that `midi-file` could not give back byte
 * for byte is an `unknownMeta` with its type byte and data.
 */
export type MidiEvent = MetaEvent | ExclusiveEvent | MessageEvent;

/** General MIDI System On or Off, as an object. */
export function isSystemOnObject(event: MidiEvent): boolean {
  return event.type === 'sysEx' && event.data[0] === 0x7e && event.data[2] === 0x09;
}
