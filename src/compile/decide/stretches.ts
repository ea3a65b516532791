import type { MeasuredNote } from '../../midi/index.js';
import type { Choice, Choices } from './choices.js';

/** What each onset of a line may be given. */
export interface LineChoices {
  /**
   * Those of an onset, the plain one first, behind what the onset before it was given. To be asked for in order of onset:
   * of a long line only one stretch is kept.
   */
  of(onset: number, previous: string | undefined): readonly Choice[];
}

/**
 * The choices of a line's onsets by their top notes. A note near a bound is only ever given what the plain ladder gives
 * to a note around it: to one of the stretch of notes near bounds in which it stands, or to the clear note at either end
 * of it. Three staccatos of three lengths do not become legato because that would be one articulation.
 *
 * @param onsets how many there are
 * @param topOf the top note of an onset; it may be one object that stands for one after another
 */
export function choicesAlong(
  onsets: number,
  topOf: (onset: number) => MeasuredNote,
  choices: Choices,
): LineChoices {
  let stretch: Stretch = { from: 0, to: 0, all: [], around: [], last: undefined };
  const among = (all: readonly Choice[]) =>
    all.length < 2
      ? all
      : all.filter(({ articulation }, index) => index === 0 || stretch.around.includes(articulation));
  return {
    of: (onset, previous) => {
      while (onset >= stretch.to && stretch.to < onsets)
        stretch = nextStretch(onsets, topOf, choices, stretch);
      const all = choices.asksPrevious
        ? choices.all(topOf(onset), previous)
        : stretch.all[onset - stretch.from];
      return among(all ?? []);
    },
  };
}

/** Onsets near bounds, and the clear one that ends them. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  /** The choices of each, behind what the plain ladder gives to the one before. */
  readonly all: readonly (readonly Choice[])[];
  /** What the plain ladder gives to them, and to the clear onset before them. */
  readonly around: readonly string[];
  /** What it gives to the last. */
  readonly last: string | undefined;
}

function nextStretch(
  onsets: number,
  topOf: (onset: number) => MeasuredNote,
  choices: Choices,
  { to: from, last }: Stretch,
): Stretch {
  const all: (readonly Choice[])[] = [];
  const around = last === undefined ? [] : [last];
  let before = last;
  for (let onset = from, isNear = true; isNear && onset < onsets; onset++) {
    const of = choices.all(topOf(onset), before);
    all.push(of);
    before = of[0]?.articulation;
    if (before !== undefined && !around.includes(before)) around.push(before);
    isNear = of.length > 1;
  }
  return { from, to: from + all.length, all, around, last: before };
}
