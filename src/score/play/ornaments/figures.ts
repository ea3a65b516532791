import type { Figure } from '../../model.js';

/** A note of a figure: semitones from the written note, and its place. Unit: ticks. */
export interface FigureNote {
  readonly offset: number;
  readonly tick: number;
}

/** Where a figure has its room, and how fast time runs there. */
export interface Room {
  readonly from: number;
  readonly to: number;
  readonly ticksPerSecond: number;
}

/** Notes a second of a trill without measure (common practice, no source). */
export const trillRate = 12;

/** The most seconds for one note of a short figure: of a mordent, of a turn (common practice, no source). */
const quick = 0.08;
const turning = 0.12;

/** More notes than this are too many for one figure. */
export const mostNotes = 4096;

/**
 * A figure as notes. What the score says of it is done (MusicXML 4.0, trill-sound: start, beats, places of the second
 * and last beat, two-note turn, accelerate), and its defaults hold but for these: a trill without `beats` has as many
 * notes as twelve a second make, and the notes of short figures are at most 80 ms long (120 ms in turns), where the
 * default would make them slow on long notes. What the figures are: MusicXML 4.0, ornaments; the schleifer, delayed
 * turns and the haydn as a turn: common practice, no source.
 */
export function figureNotes(figure: Figure, room: Room): readonly FigureNote[] {
  switch (figure.kind) {
    case 'trill':
      return trill(figure, room);
    case 'shake':
      return shortFigure(alternating(figure.sound.beats ?? 4, figure.upper, 0), figure, room, quick);
    case 'mordent':
      return shortFigure(mordent(figure), figure, room, quick);
    case 'turn':
      return turn(figure, room);
    case 'schleifer':
      return shortFigure([-figure.third, -figure.lower, 0], figure, room, quick);
  }
}

function trill(figure: Figure, room: Room): readonly FigureNote[] {
  const { sound, upper, lower } = figure;
  const start = sound.start ?? 'upper';
  const seconds = (room.to - room.from) / room.ticksPerSecond;
  const fitting = Math.min(mostNotes, 2 * Math.max(2, Math.round((seconds * trillRate) / 2)));
  // it ends with the note itself
  const count = Math.min(mostNotes, Math.round(sound.beats ?? (start === 'main' ? fitting - 1 : fitting)));
  const notes =
    start === 'main'
      ? alternating(count, 0, upper)
      : start === 'upper'
        ? alternating(count, upper, 0)
        : [-lower, ...alternating(count - 1, 0, upper)];
  const ended = sound.ending === null ? notes : [...notes, -sound.ending, 0];
  const places =
    sound.second === null && sound.last === null
      ? evenly(ended.length, sound.accelerates)
      : beaten(notes.length, ended.length, sound.second, sound.last);
  return placed(ended, places, room);
}

function mordent({ isInverted, isLong, upper, lower, sound }: Figure): readonly number[] {
  const other = isInverted ? upper : -lower;
  const plain = alternating(sound.beats ?? (isLong ? 5 : 3), 0, other);
  if (sound.start === 'upper') return [upper, ...plain];
  return sound.start === 'below' ? [-lower, ...plain] : plain;
}

function turn(figure: Figure, room: Room): readonly FigureNote[] {
  const { sound, upper, lower, isDelayed } = figure;
  const isFromBelow = figure.isInverted ? sound.start !== 'upper' : sound.start === 'below';
  const around = isFromBelow ? [-lower, 0, upper, 0] : [upper, 0, -lower, 0];
  if (!isDelayed) return shortFigure(sound.start === 'main' ? [0, ...around] : around, figure, room, turning);
  const length = room.to - room.from;
  const step = Math.min(length / 8, turning * room.ticksPerSecond);
  const begin = room.to - 4 * step;
  return [
    { offset: 0, tick: room.from },
    ...around.map((offset, index) => ({ offset, tick: Math.round(begin + index * step) })),
  ];
}

/** Notes in haste, and then the last as long as there is room. */
function shortFigure(
  offsets: readonly number[],
  { sound }: Figure,
  room: Room,
  longest: number,
): readonly FigureNote[] {
  if (sound.second !== null || sound.last !== null)
    return placed(offsets, beaten(offsets.length, offsets.length, sound.second, sound.last), room);
  const length = room.to - room.from;
  const step = Math.min(length / Math.max(4, offsets.length), longest * room.ticksPerSecond);
  return offsets.map((offset, index) => ({ offset, tick: Math.round(room.from + index * step) }));
}

function alternating(count: number, first: number, second: number): readonly number[] {
  const length = Math.max(2, Math.min(mostNotes, Math.round(count)));
  return Array.from({ length }, (_, index) => (index % 2 === 0 ? first : second));
}

function placed(offsets: readonly number[], places: readonly number[], { from, to }: Room) {
  return offsets.map((offset, index) => ({
    offset,
    tick: Math.round(from + (places[index] ?? 1) * (to - from)),
  }));
}

/** Shares of a length at which notes of one length stand; each shorter than the one before where it accelerates. */
function evenly(count: number, accelerates: boolean): readonly number[] {
  const weights = Array.from({ length: count }, (_, index) => (accelerates ? 2 - index / count : 1));
  const sum = weights.reduce((all, one) => all + one, 0);
  let before = 0;
  return weights.map((weight) => {
    const place = before / sum;
    before += weight;
    return place;
  });
}

/** Places of a figure whose second and last beat are told; what ends it comes behind the last. */
function beaten(beats: number, count: number, second: number | null, last: number | null): readonly number[] {
  const from = second ?? 1 / count;
  const to = Math.max(from, last ?? (beats - 1) / count);
  return Array.from({ length: count }, (_, index) => {
    if (index === 0) return 0;
    if (index < beats) return from + ((to - from) * (index - 1)) / Math.max(1, beats - 2);
    return to + ((1 - to) * (index - beats + 1)) / (count - beats + 1);
  });
}
