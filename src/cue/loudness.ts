import {
  type Curve,
  curveThrough,
  defaultShape,
  dynamicWord,
  levelOfMark,
  type PlacedWord,
  shapeTargets,
  struckOf,
  targetsOfMarks,
} from '../dynamics/index.js';
import { readMarks } from '../map/index.js';
import type { Line, Song } from '../midi/index.js';
import type { CueDynamics } from './types.js';

/**
 * How loud a line is, on the scale of marks, over ticks: as the marks in the music say, or shaped on top of them;
 * undefined where the dynamics are not made here, or there are no notes.
 */
export function loudnessOf(
  song: Song,
  line: Line,
  dynamics: CueDynamics | undefined,
  isArticulation: (name: string) => boolean,
): Curve | undefined {
  const [first] = line.onsets;
  if (!dynamics || dynamics.source === 'keep' || !first) return undefined;
  const struck = struckOf(line);
  const marked = targetsOfMarks(wordsIn(song, line, isArticulation), {
    startTick: first.tick,
    endTick: struck.reduce((latest, { endTick }) => Math.max(latest, endTick), first.tick),
    level: levelOfMark(dynamics.start) ?? 0,
  });
  if (dynamics.source === 'marks') return curveThrough(marked);
  return curveThrough(shapeTargets(struck, { ...defaultShape, ...dynamics, base: marked }));
}

/** The marks of loudness that concern a line, in order of tick. */
function wordsIn(
  song: Song,
  { part }: Line,
  isArticulation: (name: string) => boolean,
): readonly PlacedWord[] {
  const track = song.tracks[part.track - 1];
  if (!track) return [];
  return readMarks(song, track, isArticulation).flatMap((mark): PlacedWord[] => {
    const word = mark.kind === 'unknown' ? dynamicWord(mark.name) : undefined;
    return word ? [{ ...word, tick: mark.tick }] : [];
  });
}
