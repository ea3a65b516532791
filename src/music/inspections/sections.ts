import type { Part, Track } from '../../midi/index.js';
import { departmentPlayers, type InstrumentKind } from '../balance/index.js';

/** A part as a section of the orchestra. */
export interface Section {
  readonly part: Part;
  readonly name: string;
  readonly kind: InstrumentKind;
  readonly players: number;
}

/** Words of track names, English, Italian, German and French (common practice, no source); the first that fits. */
const words: readonly (readonly [RegExp, InstrumentKind])[] = [
  [/english horn|cor anglais|corno inglese|englischhorn/u, 'woodwind'],
  [/trumpet|trompete|trompette|tromba\b|trombe\b|cornet/u, 'trumpet'],
  [/trombone|posaune/u, 'trombone'],
  [/tuba/u, 'tuba'],
  [/\bhorns?\b|h[öo]rner|\bcorn[oi]\b|\bcors?\b/u, 'horn'],
  [
    /flute|fl[öo]te|flaut|piccolo|oboe|hautbois|clarinet|klarinette|bassoon|fagott|basson|woodwind|holzbl/u,
    'woodwind',
  ],
  [
    /violin|viol[ae]|violas|bratsche|\balto\b|cell[oi]|contrabass|kontrab|double bass|string|streicher|archi/u,
    'strings',
  ],
];

/** General MIDI level 1 sound set (from memory): first and last program on the wire. */
const programs: readonly (readonly [from: number, to: number, kind: InstrumentKind])[] = [
  [40, 45, 'strings'],
  [48, 51, 'strings'],
  [56, 56, 'trumpet'],
  [57, 57, 'trombone'],
  [58, 58, 'tuba'],
  [59, 59, 'trumpet'],
  [60, 60, 'horn'],
  [68, 75, 'woodwind'],
];

/**
 * The section that a part is, by its track's name, else by its first program; undefined where neither tells, and for
 * percussion. Players are a number in the name ("4 Horns", "Horns a 4"); else one, or a department of strings.
 */
export function sectionOf(track: Track, part: Part): Section | undefined {
  const name = track.name.toLowerCase();
  const kind = words.find(([word]) => word.test(name))?.[1] ?? kindOfProgram(track, part.channel);
  if (!kind) return undefined;
  const [, before, behind] = /^(\d{1,2})\s|\ba\s?(\d{1,2})\b/u.exec(name) ?? [];
  const said = Number(before ?? behind ?? 0);
  const players = said > 0 ? said : kind === 'strings' ? departmentPlayers : 1;
  return { part, name: track.name === '' ? `track ${track.number}` : track.name, kind, players };
}

function kindOfProgram(track: Track, channel: number): InstrumentKind | undefined {
  const program = firstProgram(track, channel) ?? -1;
  return programs.find(([from, to]) => program >= from && program <= to)?.[2];
}

/** The first program that a part sets, as it stands in the file. */
export function firstProgram(track: Track, channel: number): number | undefined {
  const first = track.events.find((event) => event.type === 'programChange' && event.channel === channel);
  return first?.type === 'programChange' ? first.programNumber : undefined;
}
