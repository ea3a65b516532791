import { articulationOf, type CompiledPart, onsetOf, placesOf } from '../../compile/index.js';
import { type MeasuredNote, noteEnd, noteTick } from '../../midi/index.js';
import { type ChangedNote, verdict } from '../changes.js';
import type { Otherwise } from '../differences.js';
import { areVersions, isKept, likenessBetween } from '../matching.js';
import { type AxisKind, axisOf } from './axis.js';
import { matched, type Pair } from './match.js';

/** What of a note's way to the library is otherwise, though it is played and decided as before. */
export type SentAspect = 'time' | 'length' | 'velocity' | 'key' | 'channel' | 'switch';

/** Where a note stands. */
export interface NotePlace {
  readonly tick: number;
  /** null where the music has no bars. */
  readonly bar: number | null;
  readonly beat: number | null;
  readonly pitch: number;
}

/** A note that only one of two takes has, at its place there. */
export interface LoneNote extends NotePlace {
  readonly take: 'first' | 'second';
}

/** A note that both takes have, at its place in the second; with what of it is otherwise. */
export interface AlteredNote extends NotePlace {
  /** By how much it stands later (or earlier, below 0). Unit: ticks of the first take. */
  readonly moved?: number;
  /** How long it is held. Unit: ms. */
  readonly held?: Otherwise<number>;
  readonly velocity?: Otherwise<number>;
  readonly decided?: Pick<ChangedNote, 'from' | 'to' | 'likeness'>;
  /** Where nothing else is otherwise: the rest of its way to the library. */
  readonly sent?: readonly SentAspect[];
}

/** In what the notes of a part differ between two takes. */
export interface NoteDifferences {
  /** Those of the first take, then those of the second, each in the order of the file. */
  readonly lone: readonly LoneNote[];
  readonly altered: readonly AlteredNote[];
  /** How many notes are in both takes, and in nothing otherwise. */
  readonly same: number;
}

/** Compares the notes of a part in two takes, with what was decided for them and how they are sent. */
export function noteDifferences(first: CompiledPart, second: CompiledPart, by: AxisKind): NoteDifferences {
  const { place, most } = axisOf(first.line.clock, second.line.clock, by);
  const [ours, theirs] = [notesOf(first), notesOf(second)];
  const pairs = matched(
    ours.map(({ note: { pitch, tick } }) => ({ pitch, place: tick })),
    theirs.map(({ note: { pitch, tick } }) => ({ pitch, place: place(tick) })),
    most,
  );
  const paired = {
    first: new Set(pairs.map(([one]) => one)),
    second: new Set(pairs.map(([, other]) => other)),
  };
  const lone = (take: LoneNote['take'], notes: readonly Sounding[]) =>
    notes.flatMap((one, index): LoneNote[] => (paired[take].has(index) ? [] : [{ take, ...placeOf(one) }]));
  const alter = alteration(first, second, place);
  const altered = [...pairs]
    .sort(([, a], [, b]) => a - b)
    .flatMap(([one, other]) => alter(ours[one], theirs[other]) ?? []);
  return {
    lone: [...lone('first', ours), ...lone('second', theirs)],
    altered,
    same: pairs.length - altered.length,
  };
}

/** All notes of a part that another has nothing of. */
export function loneNotes(part: CompiledPart, take: LoneNote['take']): NoteDifferences {
  return { lone: notesOf(part).map((one) => ({ take, ...placeOf(one) })), altered: [], same: 0 };
}

/** A note with its place, and its row among what was decided. */
interface Sounding {
  readonly note: MeasuredNote;
  readonly row: number;
  readonly bar: number | null;
  readonly beat: number | null;
}

/** In the order of the file. */
function notesOf({ line, decided }: CompiledPart): readonly Sounding[] {
  const placeOf = placesOf(line);
  return Array.from({ length: decided.length }, (_, row) => {
    const position = placeOf(onsetOf(decided, row));
    return { note: decided.noteOf(row), row, bar: position?.bar ?? null, beat: position?.beat ?? null };
  });
}

function placeOf({ note: { tick, pitch }, bar, beat }: Sounding): NotePlace {
  return { tick, bar, beat, pitch };
}

type Alter = (one: Sounding | undefined, other: Sounding | undefined) => AlteredNote | undefined;

function alteration(first: CompiledPart, second: CompiledPart, place: (tick: number) => number): Alter {
  const likenessTo = likenessBetween(first.map, second.map);
  const isOne = areVersions(first.map, second.map);
  const decided = (one: Sounding, other: Sounding): AlteredNote['decided'] => {
    const likeness = likenessTo(
      articulationOf(first.decided, one.row),
      articulationOf(second.decided, other.row),
    );
    if (isKept(likeness)) return undefined;
    const [from, to] = [first.decided.decision(one.row), second.decided.decision(other.row)];
    return { from: verdict(first, from), to: verdict(second, to), ...(isOne ? {} : { likeness }) };
  };
  return (one, other) => {
    if (!one || !other) return undefined;
    const [was, is] = [one.note, other.note];
    const moved = round(place(is.tick) - was.tick);
    const longer = round(place(is.endTick) - place(is.tick) - (was.endTick - was.tick));
    const change = decided(one, other);
    const found: Partial<AlteredNote> = {
      ...(moved === 0 ? {} : { moved }),
      ...(longer === 0 ? {} : { held: { from: round(was.held.ms), to: round(is.held.ms) } }),
      ...(was.velocity === is.velocity ? {} : { velocity: { from: was.velocity, to: is.velocity } }),
      ...(change ? { decided: change } : {}),
    };
    if (Object.keys(found).length > 0) return { ...placeOf(other), ...found };
    const sent =
      first.map.file === second.map.file ? sentOtherwise(first, second, [one.row, other.row], place) : [];
    return sent.length === 0 ? undefined : { ...placeOf(other), sent };
  };
}

function sentOtherwise(
  first: CompiledPart,
  second: CompiledPart,
  [one, other]: Pair,
  place: (tick: number) => number,
): readonly SentAspect[] {
  const [was, is] = [placeNow(first, one), placeNow(second, other)];
  const [before, after] = [first.switched.sent.at(one), second.switched.sent.at(other)];
  const [switched, switches] = [first.switched.switchTickOf(one), second.switched.switchTickOf(other)];
  if (!before || !after) return [];
  const differs: Readonly<Record<SentAspect, boolean>> = {
    time: round(place(is.tick)) !== was.tick,
    length: round(place(is.endTick) - place(is.tick)) !== was.endTick - was.tick,
    velocity: before.velocity !== after.velocity,
    key: before.pitch !== after.pitch,
    channel: before.channel !== after.channel,
    switch: (switched === null) !== (switches === null),
  };
  return (Object.keys(differs) as SentAspect[]).filter((aspect) => differs[aspect]);
}

/** Where the note of a row stands now. */
function placeNow(
  { retimed: { decided } }: CompiledPart,
  row: number,
): Pick<MeasuredNote, 'tick' | 'endTick'> {
  return { tick: noteTick(decided, row), endTick: noteEnd(decided, row) };
}

/** To a thousandth: what is less comes of laying one take over the other. */
function round(value: number): number {
  return Math.round(value * 1000) / 1000;
}
