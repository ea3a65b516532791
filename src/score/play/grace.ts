import { largest } from '../largest.js';
import type { Grace } from '../model.js';
import type { Sounding } from './notes.js';

/** A short grace note is no longer than a thirty-second (common practice, no source). */
const shortest = (ppq: number) => Math.round(ppq / 8);

/**
 * Gives grace notes their time. What the score says (MusicXML 4.0, `grace`: steal-time-previous, steal-time-following,
 * make-time) is done. Else notes with a slash are played before the beat, short; those without take their written
 * length from the note that they lead to, but at most half of it (common practice, no source); and those that no note
 * follows end with the note before.
 *
 * @param notes of one part, in order; changed in place
 */
export function placeGraces(notes: readonly Sounding[], ppq: number): void {
  const voices = new Map<string, Sounding[]>();
  for (const one of notes) {
    const voice = voices.get(one.note.voice);
    if (voice) voice.push(one);
    else voices.set(one.note.voice, [one]);
  }
  for (const voice of voices.values()) placeInVoice(voice, ppq);
}

/** A grace note, or grace notes struck together. */
type Slot = readonly Sounding[];

interface Group {
  readonly slots: readonly Slot[];
  readonly tick: number;
  /** The notes that it leads to; none where it ends a note. */
  readonly main: readonly Sounding[];
  readonly previous: readonly Sounding[];
}

function placeInVoice(voice: readonly Sounding[], ppq: number): void {
  let previous: readonly Sounding[] = [];
  for (let index = 0; index < voice.length; ) {
    const tick = voice[index]?.tick ?? 0;
    const isGrace = voice[index]?.note.grace != null;
    const together = stretch(voice, index, tick, isGrace);
    index += together.length;
    if (isGrace) {
      const main = stretch(voice, index, tick, false);
      placeGroup({ slots: slotsOf(together), tick, main, previous }, ppq);
    } else previous = together;
  }
}

/** The notes from an index on that stand at one tick, grace notes or not. */
function stretch(
  voice: readonly Sounding[],
  from: number,
  tick: number,
  isGrace: boolean,
): readonly Sounding[] {
  let to = from;
  for (let one = voice[to]; one?.tick === tick && (one.note.grace !== null) === isGrace; one = voice[to])
    to += 1;
  return voice.slice(from, to);
}

function slotsOf(graces: readonly Sounding[]): readonly Slot[] {
  const slots: Sounding[][] = [];
  for (const grace of graces) {
    const last = slots.at(-1);
    if (grace.note.isChordTone && last) last.push(grace);
    else slots.push([grace]);
  }
  return slots;
}

function placeGroup(group: Group, ppq: number): void {
  const { slots, tick, main, previous } = group;
  const grace = slots[0]?.[0]?.note.grace;
  if (!grace) return;
  const written = slots.reduce((sum, [first]) => sum + (first?.note.grace?.written ?? 0), 0);
  const mainLength = longest(main);
  const taken = fromMain(grace, written, mainLength);
  if (main.length > 0 && taken !== null) {
    onTheBeat(group, taken);
    return;
  }
  const room = longest(previous);
  const short = Math.min(written, slots.length * shortest(ppq));
  const wanted =
    grace.stealPrevious === null ? Math.min(short, room > 0 ? room / 2 : short) : room * grace.stealPrevious;
  const total = Math.max(slots.length, Math.round(wanted));
  if (tick - total < 0) {
    onTheBeat(group, Math.min(total, mainLength / 2));
    return;
  }
  layOut(slots, tick - total, tick);
  for (const one of previous) one.endTick = Math.max(one.tick + 1, Math.min(one.endTick, tick - total));
}

/** What grace notes take from the note that they lead to; null where they are played before the beat. */
function fromMain(grace: Grace, written: number, mainLength: number): number | null {
  if (grace.makeTime !== null) return grace.makeTime;
  if (grace.stealFollowing !== null) return mainLength * grace.stealFollowing;
  return grace.hasSlash || grace.stealPrevious !== null ? null : Math.min(written, mainLength / 2);
}

function onTheBeat({ slots, tick, main }: Group, wanted: number): void {
  const total = Math.max(slots.length, Math.round(wanted));
  layOut(slots, tick, tick + total);
  for (const one of main) {
    one.tick = tick + total;
    one.endTick = Math.max(one.endTick, one.tick + 1);
  }
}

function longest(notes: readonly Sounding[]): number {
  return largest(
    notes.map((one) => one.endTick - one.tick),
    0,
  );
}

function layOut(slots: readonly Slot[], from: number, to: number): void {
  const at = (index: number) => from + Math.floor(((to - from) * index) / slots.length);
  slots.forEach((slot, index) => {
    for (const one of slot) {
      one.tick = at(index);
      one.endTick = at(index + 1);
    }
  });
}
