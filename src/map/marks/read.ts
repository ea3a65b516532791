import {
  type Events,
  longData,
  metaType,
  metaTypes,
  nextMeta,
  type Song,
  type Track,
  tickOf,
  wordTypes,
} from '../../midi/index.js';
import { canonicalMark, plainMark } from './vocabulary.js';

/** What a bracketed text in the music says from its tick on. */
export type MarkEvent =
  | { readonly kind: 'begin' | 'once'; readonly tick: number; readonly name: string }
  | { readonly kind: 'auto'; readonly tick: number }
  | { readonly kind: 'unknown'; readonly tick: number; readonly track: number; readonly name: string };

const onlyMarkers: ReadonlySet<number> = new Set([metaTypes.marker]);

/** A longer text is no mark. Unit: bytes. */
const longestMark = 8192;

const bracketed = /^\s*\[([^[\]]{1,200})\]\s*$/u;

/** Whether a text in the music is a mark, known or not: it stands in brackets. */
export function isMarkText(text: string): boolean {
  return bracketed.test(text);
}

/**
 * The marks that concern a part, in order of tick: texts, lyrics, markers and cue points of its own track, and
 * markers of the first track (in format 2 every track is a piece of its own, so only its own count).
 */
export function readMarks(
  song: Song,
  track: Track,
  isArticulation: (name: string) => boolean,
): readonly MarkEvent[] {
  const marks: MarkEvent[] = [];
  const first = song.tracks[0];
  if (first && first !== track && song.format !== 2) collect(first, onlyMarkers, isArticulation, marks);
  collect(track, wordTypes, isArticulation, marks);
  return marks.sort((a, b) => a.tick - b.tick);
}

function collect(
  { columns, number }: Track,
  types: ReadonlySet<number>,
  isArticulation: (name: string) => boolean,
  into: MarkEvent[],
): void {
  for (let event = nextMeta(columns, 0); event >= 0; event = nextMeta(columns, event + 1)) {
    const mark = types.has(metaType(columns, event))
      ? markAt(columns, event, number, isArticulation)
      : undefined;
    if (mark) into.push(mark);
  }
}

/** What a text, lyric, marker or cue point of a track (from 1) says as a mark; undefined of every other event. */
export function markAt(
  columns: Events,
  event: number,
  track: number,
  isArticulation: (name: string) => boolean,
): MarkEvent | undefined {
  if (!wordTypes.has(metaType(columns, event))) return undefined;
  const data = longData(columns, event);
  if (data.length > longestMark) return undefined;
  const inner = bracketed.exec(String.fromCharCode(...data))?.[1];
  return inner === undefined ? undefined : interpret(inner, tickOf(columns, event), track, isArticulation);
}

function interpret(
  inner: string,
  tick: number,
  track: number,
  isArticulation: (name: string) => boolean,
): MarkEvent {
  const plain = plainMark(inner);
  if (plain === 'auto') return { kind: 'auto', tick };
  const once = plain.endsWith('!');
  const word = once ? plain.slice(0, -1).trim() : plain;
  const name = isArticulation(word) ? word : canonicalMark(word);
  if (name === undefined) return { kind: 'unknown', tick, track, name: word };
  return { kind: once ? 'once' : 'begin', tick, name };
}
