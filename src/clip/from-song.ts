import type { Meaning } from '../map/index.js';
import { type MidiEvent, pairedNotes, type Song, type Track } from '../midi/index.js';
import { freeAddress } from './addresses.js';
import type { Clip, ClipMessage, ClipPart, ClipRemark } from './types.js';

/** A part of a song, and what its notes mean. */
export interface SoundingPart {
  readonly name: string;
  /** Counted from 1 in file order. */
  readonly track: number;
  /** 0–15. */
  readonly channel: number;
  /** What a note means, by the index of its note-on in the track; undefined where nothing is known. */
  readonly meaningOf: (onIndex: number) => Meaning | undefined;
}

/** A clip, and what of the song is not in it. */
export interface ClipOfSong {
  /** undefined where the song counts frames, which no clip can. */
  readonly clip: Clip | undefined;
  readonly diagnostics: readonly ClipRemark[];
}

/**
 * A song's parts as a clip: the music as it stands in the source, with what each note means in place of switches. Each
 * part keeps its channel, in the first group where that is free.
 */
export function clipOfSong(song: Song, parts: readonly SoundingPart[]): ClipOfSong {
  if (song.division.kind === 'smpte') {
    const message = 'the music counts SMPTE frames';
    const hint = 'a clip file counts parts of a quarter note: export the music with beats';
    return { clip: undefined, diagnostics: [{ code: 'clip-resolution', message, hint }] };
  }
  const conductors =
    song.format === 2 ? song.tracks.filter(({ number }) => number === parts[0]?.track) : song.tracks;
  const taken = new Set<string>();
  const withSysex = new Set<number>();
  const written = parts.flatMap((part): ClipPart[] => {
    const track = song.tracks[part.track - 1];
    if (!track) return [];
    const isFirst = !withSysex.has(part.track);
    withSysex.add(part.track);
    return [{ name: part.name, ...freeAddress(part.channel, taken), ...contents(track, part, isFirst) }];
  });
  const clip: Clip = {
    ticksPerQuarter: song.division.ppq,
    tempos: lastOfTick(conductors, (event) =>
      event.type === 'setTempo' ? { microsecondsPerQuarter: event.microsecondsPerBeat } : undefined,
    ),
    signatures: lastOfTick(conductors, (event) =>
      event.type === 'timeSignature'
        ? { numerator: event.numerator, denominator: event.denominator }
        : undefined,
    ),
    parts: written,
    endTick: song.tracks.reduce((end, { ticks }) => Math.max(end, ticks.at(-1) ?? 0), 0),
  };
  return { clip, diagnostics: leftOut(song, parts) };
}

function contents(
  track: Track,
  { channel, meaningOf }: SoundingPart,
  withSysex: boolean,
): Pick<ClipPart, 'notes' | 'messages'> {
  const notes = pairedNotes(track, channel).notes.map(({ onIndex, offIndex, ...note }) => {
    const release = track.events[offIndex];
    const meaning = meaningOf(onIndex);
    // Velocity 0 at a note-on is a release that was not measured.
    const isMeasured = release?.type === 'noteOff' && release.byte9 !== true;
    return {
      ...note,
      ...(isMeasured ? { releaseVelocity: release.velocity } : {}),
      ...(meaning ? { meaning } : {}),
    };
  });
  const messages = track.events.flatMap((event, index): ClipMessage[] => {
    const message = messageOf(event, channel, withSysex);
    return message ? [{ ...message, tick: track.ticks[index] ?? 0 }] : [];
  });
  return { notes, messages };
}

type Untimed = ClipMessage extends infer M ? (M extends ClipMessage ? Omit<M, 'tick'> : never) : never;

function messageOf(event: MidiEvent, channel: number, withSysex: boolean): Untimed | undefined {
  if (event.type === 'sysEx') return withSysex ? sysexOf(event.data) : undefined;
  if (!('channel' in event) || event.channel !== channel) return undefined;
  switch (event.type) {
    case 'controller':
      return { kind: 'controller', number: event.controllerType, value: event.value };
    case 'programChange':
      return { kind: 'program', program: event.programNumber };
    case 'pitchBend':
      // Events count bends from the middle.
      return { kind: 'bend', value: event.value + 8192 };
    case 'channelAftertouch':
      return { kind: 'pressure', value: event.amount };
    case 'noteAftertouch':
      return { kind: 'key pressure', pitch: event.noteNumber, value: event.amount };
    default:
      return undefined;
  }
}

/** A message that is whole within its event; undefined for one in several parts. */
function sysexOf(data: ArrayLike<number>): Untimed | undefined {
  const bytes = Array.from(data);
  const whole = bytes.at(-1) === 0xf7 && bytes.slice(0, -1).every((byte) => byte < 0x80);
  return whole ? { kind: 'sysex', data: bytes.slice(0, -1) } : undefined;
}

function lastOfTick<T extends object>(
  tracks: readonly Track[],
  read: (event: MidiEvent) => T | undefined,
): readonly (T & { readonly tick: number })[] {
  const found = new Map<number, T>();
  for (const { events, ticks } of tracks)
    events.forEach((event, index) => {
      const value = read(event);
      if (value) found.set(ticks[index] ?? 0, value);
    });
  return [...found].sort(([a], [b]) => a - b).map(([tick, value]) => ({ tick, ...value }));
}

const texts = new Set(['text', 'lyrics', 'marker', 'cuePoint']);

/** Marks: what they say of notes is in the notes. */
const bracketed = /^\s*\[[^[\]]{1,200}\]\s*$/u;

/** Texts but marks, and system exclusive messages in several parts, are told by their number. */
function leftOut(song: Song, parts: readonly SoundingPart[]): readonly ClipRemark[] {
  const tracks = new Set(parts.map(({ track }) => track));
  const events = song.tracks.filter(({ number }) => tracks.has(number)).flatMap((track) => track.events);
  const count = (fits: (event: MidiEvent) => boolean) => events.filter(fits).length;
  const words = count((event) => texts.has(event.type) && !('text' in event && bracketed.test(event.text)));
  const broken = count(
    (event) => event.type === 'endSysEx' || (event.type === 'sysEx' && !sysexOf(event.data)),
  );
  const told: readonly (readonly [number, string])[] = [
    [words, 'texts, lyrics, markers or cue points'],
    [broken, 'system exclusive messages that are sent in several parts'],
  ];
  return told.flatMap(([number, what]): ClipRemark[] => {
    if (number === 0) return [];
    const hint = 'they are in the MIDI file that the clip is made from';
    return [{ code: 'clip-left-out', message: `${number} ${what} are not in the clip`, hint }];
  });
}
