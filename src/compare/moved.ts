import { articulationOf, onsetOf, placesOf } from '../compile/index.js';
import type { ArticulationMap, Likeness } from '../map/index.js';
import { type BarRange, barRangesOf, noteTick, pitchOf } from '../midi/index.js';
import type { Decided } from './changes.js';
import { becomesIn, likenessBetween } from './matching.js';

/** Notes of a part that get one articulation from one library and one from another. */
export interface MovedNotes {
  readonly from: string;
  readonly to: string;
  readonly likeness: Likeness;
  /** What comes nearer to the old articulation than what the new map's rules give; absent where nothing does. */
  readonly nearer?: string;
  readonly notes: number;
  /** The bars in which they begin; none where the music has no bars. */
  readonly bars: readonly BarRange[];
}

/** Notes outside a range. */
export interface Outside {
  readonly notes: number;
  readonly bars: readonly BarRange[];
  /** The lowest and the highest of them, as MIDI notes. */
  readonly low: number;
  readonly high: number;
}

/** What becomes of the notes of a part in another library. */
export interface Moved {
  readonly notes: number;
  /** In the order of the old map, then of the new one. */
  readonly moved: readonly MovedNotes[];
  /** Notes that the old library has, and the new one has not. */
  readonly outside?: Outside;
}

/** What becomes of notes that two maps decided; told by tick and pitch, since the tracks may have other events in them. */
export function movedNotes(before: readonly Decided[], after: readonly Decided[]): Moved {
  const notes = before.flatMap((one, index) => pairs(one, after[index]));
  const [first] = notes;
  if (!first) return { notes: 0, moved: [] };
  const { a, b } = first;
  const likenessTo = likenessBetween(a, b);
  const best = new Map(becomesIn(a, b).map((one) => [one.from, one]));
  const rows = [...kindsOf(notes)].flatMap((of): MovedNotes[] => {
    const [one] = of;
    if (!one) return [];
    const { from, to } = one;
    const likeness = likenessTo(from, to);
    const wanted = best.get(from);
    const nearer = wanted && wanted.to !== null && wanted.likeness !== likeness ? wanted.to : undefined;
    return [
      { from, to, likeness, ...(nearer === undefined ? {} : { nearer }), notes: of.length, bars: barsOf(of) },
    ];
  });
  const place = (map: ArticulationMap, name: string) => [...map.articulations.keys()].indexOf(name);
  const outside = notes.filter(({ pitch, from, to }) => fits(pitch, from, a) && !fits(pitch, to, b));
  return {
    notes: notes.length,
    moved: rows.sort((x, y) => place(a, x.from) - place(a, y.from) || place(b, x.to) - place(b, y.to)),
    ...(outside.length === 0 ? {} : { outside: outsideOf(outside) }),
  };
}

/** Notes that get the same from both. */
function kindsOf(notes: readonly Pair[]): Iterable<readonly Pair[]> {
  const kinds = new Map<string, Pair[]>();
  for (const note of notes) {
    const key = JSON.stringify([note.from, note.to]);
    const same = kinds.get(key);
    if (same) same.push(note);
    else kinds.set(key, [note]);
  }
  return kinds.values();
}

interface Pair {
  readonly a: ArticulationMap;
  readonly b: ArticulationMap;
  readonly pitch: number;
  readonly bar: number | null;
  readonly from: string;
  readonly to: string;
}

function pairs(before: Decided, after: Decided | undefined): readonly Pair[] {
  if (!after) return [];
  const placeOf = placesOf(after.line);
  const had = new Map<string, string[]>();
  for (let row = 0; row < before.decided.length; row++) {
    const key = keyOf(before.decided, row);
    const articulation = articulationOf(before.decided, row);
    const same = had.get(key);
    if (same) same.push(articulation);
    else had.set(key, [articulation]);
  }
  const { decided } = after;
  return Array.from({ length: decided.length }, (_, row) => row).flatMap((row): Pair[] => {
    const from = had.get(keyOf(decided, row))?.shift();
    if (from === undefined) return [];
    const to = articulationOf(decided, row);
    const bar = placeOf(onsetOf(decided, row))?.bar ?? null;
    return [{ a: before.map, b: after.map, pitch: pitchOf(decided, row), bar, from, to }];
  });
}

function keyOf(decided: Decided['decided'], row: number): string {
  return `${noteTick(decided, row)} ${pitchOf(decided, row)}`;
}

/** What goes out on its articulation's key is not held to the range. */
function fits(pitch: number, articulation: string, { range, articulations }: ArticulationMap): boolean {
  const isKeyed = articulations.get(articulation)?.key !== undefined;
  return isKeyed || (pitch >= range.low && pitch <= range.high);
}

function outsideOf(pairs: readonly Pair[]): Outside {
  const pitches = pairs.map(({ pitch }) => pitch);
  return {
    notes: pairs.length,
    bars: barsOf(pairs),
    low: Math.min(...pitches),
    high: Math.max(...pitches),
  };
}

function barsOf(places: readonly Pair[]): readonly BarRange[] {
  return barRangesOf(places.flatMap(({ bar }) => bar ?? []));
}
