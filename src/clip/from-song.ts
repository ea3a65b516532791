import { type Meaning, markAt } from '../map/index.js';
import {
  channelOf,
  type Events,
  firstData,
  isChannelMessage,
  kindOf,
  lastOfEachTick,
  lastTick,
  longData,
  metaType,
  noteAt,
  offOf,
  onOf,
  pairNotes,
  type Song,
  secondData,
  signatureAt,
  statusOf,
  type Track,
  tempoAt,
  tickOf,
  wordTypes,
} from '../midi/index.js';
import { freeAddress } from './addresses.js';
import type { Clip, ClipMessage, ClipNote, ClipPart, ClipRemark } from './types.js';

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
    tempos: lastOfEachTick(conductors, tempoAt).map(([tick, microsecondsPerQuarter]) => ({
      tick,
      microsecondsPerQuarter,
    })),
    signatures: lastOfEachTick(conductors, signatureAt).map(([tick, signature]) => ({ tick, ...signature })),
    parts: written,
    endTick: song.tracks.reduce((end, { columns }) => Math.max(end, lastTick(columns)), 0),
  };
  return { clip, diagnostics: leftOut(song, parts) };
}

function contents(
  { columns }: Track,
  { channel, meaningOf }: SoundingPart,
  withSysex: boolean,
): Pick<ClipPart, 'notes' | 'messages'> {
  const { notes: paired } = pairNotes(columns, channel);
  const notes = Array.from({ length: paired.length }, (_, note): ClipNote => {
    const { onIndex: _on, offIndex: _off, ...played } = noteAt(paired, note);
    const release = offOf(paired, note);
    const meaning = meaningOf(onOf(paired, note));
    // Velocity 0 at a note-on is a release that was not measured.
    const isMeasured = release >= 0 && kindOf(columns, release) === 0x80;
    return {
      ...played,
      ...(isMeasured ? { releaseVelocity: secondData(columns, release) } : {}),
      ...(meaning ? { meaning } : {}),
    };
  });
  const messages: ClipMessage[] = [];
  for (let event = 0; event < columns.length; event++) {
    const message = messageOf(columns, event, channel, withSysex);
    if (message) messages.push(message);
  }
  return { notes, messages };
}

function messageOf(
  columns: Events,
  event: number,
  channel: number,
  withSysex: boolean,
): ClipMessage | undefined {
  const tick = tickOf(columns, event);
  if (!isChannelMessage(columns, event)) {
    const data = withSysex ? wholeSysex(columns, event) : undefined;
    return data && { kind: 'sysex', tick, data };
  }
  if (channelOf(columns, event) !== channel) return undefined;
  const [one, two] = [firstData(columns, event), secondData(columns, event)];
  switch (kindOf(columns, event)) {
    case 0xa0:
      return { kind: 'key pressure', tick, pitch: one, value: two };
    case 0xb0:
      return { kind: 'controller', tick, number: one, value: two };
    case 0xc0:
      return { kind: 'program', tick, program: one };
    case 0xd0:
      return { kind: 'pressure', tick, value: one };
    case 0xe0:
      return { kind: 'bend', tick, value: one + (two << 7) };
    default:
      return undefined;
  }
}

/** The bytes of a system exclusive message that is whole within its event, without its end. */
function wholeSysex(columns: Events, event: number): readonly number[] | undefined {
  if (statusOf(columns, event) !== 0xf0) return undefined;
  const data = longData(columns, event);
  const inner = Array.from(data.subarray(0, -1));
  return data.at(-1) === 0xf7 && inner.every((byte) => byte < 0x80) ? inner : undefined;
}

/** Texts but marks, whose meaning is in the notes, and system exclusive messages in several parts, by their number. */
function leftOut(song: Song, parts: readonly SoundingPart[]): readonly ClipRemark[] {
  let [words, broken] = [0, 0];
  for (const number of new Set(parts.map(({ track }) => track))) {
    const columns = song.tracks[number - 1]?.columns;
    for (let event = 0; columns && event < columns.length; event++) {
      const status = statusOf(columns, event);
      const isText = wordTypes.has(metaType(columns, event));
      if (isText && !markAt(columns, event, number, () => false)) words += 1;
      if (status === 0xf7 || (status === 0xf0 && !wholeSysex(columns, event))) broken += 1;
    }
  }
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
