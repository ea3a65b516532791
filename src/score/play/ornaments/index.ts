// The signs over notes, played out: trills, turns, mordents, tremolos, glissandi, rolled chords.
import type { Figure, Ornament } from '../../model.js';
import type { Sounding } from '../notes.js';
import type { PlayedOrnament } from '../performance.js';
import { type FigureNote, figureNotes, mostNotes, type Room, trillRate } from './figures.js';
import { rolled } from './roll.js';

/** A note's place as it is played. Unit: ticks. */
export interface Span {
  readonly tick: number;
  /** Where it is released. */
  readonly endTick: number;
}

/**
 * How each note with a sign is played out, in order of the notes; null for those without. Every note of an ornament
 * lasts until the next.
 *
 * @param room how many notes may still be made; below 0 no more are
 */
export function playOrnaments(
  notes: readonly Sounding[],
  spanOf: (one: Sounding) => Span,
  ticksPerSecondAt: (tick: number) => number,
  room: { left: number },
): readonly (PlayedOrnament | null)[] {
  const shifts = rolled(notes, ticksPerSecondAt);
  return notes.map((one): PlayedOrnament | null => {
    const { tick, endTick } = spanOf(one);
    const from = tick + (shifts.get(one) ?? 0);
    const ornament = chosen(one.note.ornaments);
    if ((!ornament && !shifts.has(one)) || room.left < 0) return null;
    const place = { from, to: Math.max(from + 1, one.endTick), ticksPerSecond: ticksPerSecondAt(tick) };
    const figure = ornament ? notesOf(ornament, one, place, endTick) : [{ offset: 0, tick: from }];
    const heard = figure.filter(({ offset }) => isKey(one.note.pitch + offset));
    const sounding = heard.map(({ offset, tick: at }, index) => {
      const next = heard[index + 1]?.tick;
      const end = ornament?.kind === 'alternation' ? (next ?? lastOf(one, place)) : (next ?? endTick);
      const length = ornament?.kind === 'alternation' ? Math.round((end - at) / 2) : end - at;
      return {
        tick: Math.max(0, at),
        endTick: Math.max(at + 1, at + length),
        pitch: one.note.pitch + offset,
      };
    });
    room.left -= sounding.length;
    if (sounding.length === 0) return null;
    const canBeOneSound = ornament !== undefined && isOneSound(ornament);
    return { marks: ornament?.marks ?? [], canBeOneSound, notes: sounding };
  });
}

function isOneSound(ornament: Ornament): boolean {
  return ornament.kind !== 'alternation' && !(ornament.kind === 'tremolo' && ornament.isRepetition);
}

function isKey(pitch: number): boolean {
  return pitch >= 0 && pitch <= 127;
}

/** Of several signs the first that is played out. A turn behind a trill is the trill's end. */
function chosen(ornaments: readonly Ornament[]): Ornament | undefined {
  const [first] = ornaments;
  const trill = ornaments.find(isTrill);
  const turn = ornaments.find((one) => one.kind === 'turn');
  if (!trill || turn?.kind !== 'turn') return first;
  const ending = trill.sound.ending ?? turn.lower;
  return { ...trill, marks: [...trill.marks, ...turn.marks], sound: { ...trill.sound, ending } };
}

function isTrill(ornament: Ornament): ornament is Figure {
  return ornament.kind === 'trill';
}

function notesOf(ornament: Ornament, one: Sounding, room: Room, endTick: number): readonly FigureNote[] {
  switch (ornament.kind) {
    case 'tremolo':
      return strokes(room, ornament.stroke, 1, 0);
    case 'alternation':
      return strokes(bothOf(ornament.isSecond, room), ornament.stroke, 2, ornament.isSecond ? 1 : 0);
    case 'glissando':
      return glissando(ornament.distance, room);
    default:
      return figureNotes(ornament, {
        ...room,
        to: Math.max(room.from + 1, Math.min(endTick, one.trillEnd ?? endTick)),
      });
  }
}

/** Each of two notes in turn is written for half of their time. */
function bothOf(isSecond: boolean, { from, to, ticksPerSecond }: Room): Room {
  const length = to - from;
  return isSecond ? { from: from - length, to, ticksPerSecond } : { from, to: to + length, ticksPerSecond };
}

/** Where the last stroke of a note of two in turn would be followed by itself. */
function lastOf({ note }: Sounding, room: Room): number {
  const alternation = note.ornaments.find((one) => one.kind === 'alternation');
  const isSecond = alternation?.kind === 'alternation' && alternation.isSecond;
  const { from, to } = bothOf(isSecond, room);
  const stroke = alternation?.kind === 'alternation' ? alternation.stroke : null;
  const count = strokeCount({ ...room, from, to }, stroke, 2);
  return to + (isSecond ? (to - from) / count : 0);
}

function strokeCount({ from, to, ticksPerSecond }: Room, stroke: number | null, among: number): number {
  const length = stroke ?? ticksPerSecond / trillRate;
  const each = Math.max(1, Math.round((to - from) / length / among));
  return among * Math.min(mostNotes, among === 1 ? Math.max(2, each) : each);
}

/** Every stroke, or every second one. */
function strokes(room: Room, stroke: number | null, among: number, first: number): readonly FigureNote[] {
  const count = strokeCount(room, stroke, among);
  const length = (room.to - room.from) / count;
  return Array.from({ length: Math.ceil((count - first) / among) }, (_, index) => ({
    offset: 0,
    tick: Math.round(room.from + (first + among * index) * length),
  }));
}

/** The note itself for half of its length, then every key up to where it leads (common practice, no source). */
function glissando(distance: number, { from, to }: Room): readonly FigureNote[] {
  const keys = Math.abs(distance) - 1;
  const begin = (from + to) / 2;
  const between = Array.from({ length: Math.max(0, keys) }, (_, index) => ({
    offset: Math.sign(distance) * (index + 1),
    tick: Math.round(begin + ((to - begin) * index) / keys),
  }));
  return [{ offset: 0, tick: from }, ...between];
}
