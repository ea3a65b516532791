import type { MidiEvent, Song, Track } from '../../midi/index.js';
import { canonicalMark, plainMark } from './vocabulary.js';

/** What a bracketed text in the music says from its tick on. */
export type MarkEvent =
  | { readonly kind: 'begin' | 'once'; readonly tick: number; readonly name: string }
  | { readonly kind: 'auto'; readonly tick: number }
  | { readonly kind: 'unknown'; readonly tick: number; readonly track: number; readonly name: string };

const bracketed = /^\s*\[([^[\]]{1,200})\]\s*$/u;

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
  if (first && first !== track && song.format !== 2) collect(first, ['marker'], isArticulation, marks);
  collect(track, ['text', 'lyrics', 'marker', 'cuePoint'], isArticulation, marks);
  return marks.sort((a, b) => a.tick - b.tick);
}

function collect(
  track: Track,
  types: readonly MidiEvent['type'][],
  isArticulation: (name: string) => boolean,
  into: MarkEvent[],
): void {
  track.events.forEach((event, index) => {
    if (!types.includes(event.type) || !('text' in event)) return;
    const inner = bracketed.exec(event.text)?.[1];
    if (inner !== undefined)
      into.push(interpret(inner, track.ticks[index] ?? 0, track.number, isArticulation));
  });
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
