import { partsOf, type Song, type Track } from '../../midi/index.js';
import type { Performance, PlayedPart } from '../play/index.js';

/** Tracks of a take and the parts of the score that they play. */
export interface Sides {
  readonly tracks: readonly Track[];
  readonly parts: readonly PlayedPart[];
}

/**
 * Which tracks play which parts: those of one name; the others in their order, where there are as many of the one as of
 * the other; else all of them together (a piano's hands, a whole score on one track).
 */
export function sidesOf(song: Song, performance: Performance): readonly Sides[] {
  let tracks = song.tracks.filter(hasNotes);
  let parts = performance.parts.filter(({ notes }) => notes.length > 0);
  const named = parts.flatMap((part): Sides[] => {
    const mine = tracks.filter((track) => plain(track.name) === plain(part.name));
    const rivals = parts.filter((other) => plain(other.name) === plain(part.name));
    return plain(part.name) !== '' && mine.length > 0 && rivals.length === 1
      ? [{ tracks: mine, parts: [part] }]
      : [];
  });
  tracks = tracks.filter((track) => !named.some((side) => side.tracks.includes(track)));
  parts = parts.filter((part) => !named.some((side) => side.parts.includes(part)));
  if (tracks.length === 0 || parts.length === 0) return named;
  if (tracks.length !== parts.length) return [...named, { tracks, parts }];
  return [
    ...named,
    ...tracks.flatMap((track, index): Sides[] => {
      const part = parts[index];
      return part ? [{ tracks: [track], parts: [part] }] : [];
    }),
  ];
}

function hasNotes(track: Track): boolean {
  return partsOf(track).length > 0;
}

function plain(name: string): string {
  return name.trim().toLowerCase().replace(/\s+/gu, ' ');
}
