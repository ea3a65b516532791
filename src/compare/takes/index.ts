// Two takes of one music, as their maps or cues decide them: what differs, note by note, and in all other events.
import type { CompiledPart } from '../../compile/index.js';
import type { Song } from '../../midi/index.js';
import type { Otherwise } from '../differences.js';
import { type BarShift, laidOver } from './bars.js';
import { type EventDifference, eventDifferences } from './events.js';
import { loneNotes, type NoteDifferences, noteDifferences } from './notes.js';

export type { BarShift } from './bars.js';
export type { EventDifference } from './events.js';
export type { AlteredNote, LoneNote, NoteDifferences, NotePlace, SentAspect } from './notes.js';

/** A part of a take, with what tells it from the others: two parts of the same key are one part in two takes. */
export interface TakenPart {
  readonly key: string;
  /** As it is called: by its cue, else by its track. */
  readonly name: string;
  readonly part: CompiledPart;
}

export interface Take {
  /** The music as it was decided: of a cue, with its controllers and layers in it. */
  readonly song: Song;
  readonly parts: readonly TakenPart[];
  /** How many empty bars were put before the music. */
  readonly preroll?: number;
}

/** A part in two takes. */
export interface PartInTakes extends NoteDifferences {
  readonly name: string;
  /** As it is in the second take; in the first where only that has it. */
  readonly part: CompiledPart;
  /** Where only one of the takes has it. */
  readonly only?: 'first' | 'second';
  /** The maps' files, where they are two. */
  readonly maps?: Otherwise<string>;
}

export interface ComparedTakes {
  readonly parts: readonly PartInTakes[];
  readonly events: readonly EventDifference[];
  /** Bars that were put in or taken out; what stands behind them is compared with what stood there. */
  readonly shift?: BarShift;
}

/** Compares two takes in all that is in them. */
export function compareTakes(first: Take, second: Take): ComparedTakes {
  const theirs = new Map(second.parts.map((one) => [one.key, one]));
  const ours = new Map(first.parts.map((one) => [one.key, one]));
  const both = first.parts.flatMap((one) => {
    const other = theirs.get(one.key);
    return other ? [{ one, other }] : [];
  });
  const later = (second.preroll ?? 0) - (first.preroll ?? 0);
  const { by, shift } = laidOver(
    both.map(({ one, other }) => [one.part, other.part]),
    later,
  );
  const parts = [...first.parts, ...second.parts.filter(({ key }) => !ours.has(key))].map(
    (one): PartInTakes => {
      const other = theirs.get(one.key);
      if (!other) return { name: one.name, part: one.part, only: 'first', ...loneNotes(one.part, 'first') };
      if (!ours.has(one.key))
        return { name: one.name, part: one.part, only: 'second', ...loneNotes(one.part, 'second') };
      const [from, to] = [one.part.map.file, other.part.map.file];
      return {
        name: other.name,
        part: other.part,
        ...(from === to ? {} : { maps: { from, to } }),
        ...noteDifferences(one.part, other.part, by),
      };
    },
  );
  const events = eventDifferences(decidedIn(first), decidedIn(second), by);
  return { parts, events, ...(shift ? { shift } : {}) };
}

/** Whether anything differs. */
export function isOtherwise({ parts, events, shift }: ComparedTakes): boolean {
  return (
    shift !== undefined ||
    events.length > 0 ||
    parts.some(({ lone, altered, only, maps }) => only || maps || lone.length > 0 || altered.length > 0)
  );
}

function decidedIn({ song, parts }: Take) {
  return {
    song,
    decided: new Set(parts.map(({ part: { part } }) => `${part.track} ${part.channel}`)),
  };
}
