import type { Target } from './curve.js';
import { levelOfMark, withinMarks } from './levels.js';

/** What a mark of loudness says. */
export type DynamicWord =
  | { readonly kind: 'level'; readonly level: number }
  | { readonly kind: 'hairpin'; readonly direction: 1 | -1 };

/** A mark of loudness in the music. */
export type PlacedWord = DynamicWord & { readonly tick: number };

const louder = ['cresc', 'cresc.', 'crescendo', '<'];
const softer = ['dim', 'dim.', 'diminuendo', 'decresc', 'decresc.', 'decrescendo', '>'];

/** Every spelling of a crescendo or diminuendo that is understood. */
export const hairpinWords: readonly string[] = [...louder, ...softer];

/**
 * How far a crescendo or diminuendo goes that no mark ends: to the next mark of the scale. Common practice, no source.
 */
export const openHairpin = 1;

/** What a mark says about loudness, case aside: a mark of the scale, a crescendo, a diminuendo; undefined for any other. */
export function dynamicWord(name: string): DynamicWord | undefined {
  const plain = name.trim().toLowerCase();
  const level = levelOfMark(plain);
  if (level !== undefined) return { kind: 'level', level };
  if (louder.includes(plain)) return { kind: 'hairpin', direction: 1 };
  if (softer.includes(plain)) return { kind: 'hairpin', direction: -1 };
  return undefined;
}

/** Whether a mark in the music is one of loudness. */
export function isDynamicMark(name: string): boolean {
  return dynamicWord(name) !== undefined;
}

/** The ticks between which there is music, and how loud it begins. */
export interface Setting {
  readonly startTick: number;
  readonly endTick: number;
  /** The level before the first mark. */
  readonly level: number;
}

/**
 * The targets that marks of loudness set. A level holds until the next mark, and is reached at once; where a crescendo or
 * diminuendo stands before it, it is reached gradually from there. A hairpin that no level ends (the next mark is
 * another hairpin, the music ends, or a level follows that lies the other way, as in a crescendo to a sudden piano)
 * goes one mark of the scale far.
 *
 * @param words in order of tick; of several levels at one tick the last counts
 * @returns for `curveThrough`; the level at the start where there are no marks
 */
export function targetsOfMarks(words: readonly PlacedWord[], setting: Setting): readonly Target[] {
  const targets: Target[] = [];
  let level = setting.level;
  let open: { readonly tick: number; readonly direction: 1 | -1 } | undefined;
  const put = (at: number, to: number) => {
    targets.push({ at, level: to });
    level = to;
  };
  const close = (tick: number, wanted: number | undefined) => {
    if (!open || tick <= open.tick) return;
    const isOnTheWay = wanted !== undefined && (wanted - level) * open.direction > 0;
    put(tick, isOnTheWay ? wanted : withinMarks(level + open.direction * openHairpin));
    open = undefined;
  };
  put(Math.min(setting.startTick, words[0]?.tick ?? setting.startTick), level);
  for (const word of words) {
    close(word.tick, word.kind === 'level' ? word.level : undefined);
    // held up to here
    if (targets.at(-1)?.at !== word.tick) put(word.tick, level);
    if (word.kind === 'hairpin') open = word;
    else if (word.level !== level) put(word.tick, word.level);
  }
  close(setting.endTick, undefined);
  return targets;
}
