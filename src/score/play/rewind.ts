import { dynamicOf } from '../loudness.js';
import type { Placed, Sign } from '../model.js';
import { ordinary, withMark } from './in-force.js';
import type { PlayedBar } from './performance.js';
import { unfold } from './timeline.js';

/** What a part is told as it plays: its signs, and at a jump back what is in force there as written. */
export type PlayedSign = { readonly tick: number } & (
  | { readonly kind: 'sign'; readonly item: Sign }
  | { readonly kind: 'restore'; readonly marks: readonly string[] }
);

/**
 * A part's signs in the order in which they are played. Where a repeat or da capo leads back, marks and loudness are
 * again what they are there in the score as it is written, and not what they came to be at its end.
 */
export function playedSigns(
  signs: readonly Placed<Sign>[],
  bars: readonly PlayedBar[],
): readonly PlayedSign[] {
  const played = unfold(signs, bars).map(({ item, tick, bar }) => ({
    bar,
    tick,
    kind: 'sign' as const,
    item: item as Sign,
  }));
  const hasLevels = signs.some(({ kind }) => kind === 'dynamic' || kind === 'loudness');
  const back = bars.flatMap(({ tick, measure }, bar) => {
    const before = bars[bar - 1];
    return before && before.measure >= measure ? [{ bar, tick, measure }] : [];
  });
  const restored = back.flatMap(({ bar, tick, measure }) => {
    const { marks, level } = writtenBefore(signs, measure);
    const restore = { bar, tick, kind: 'restore' as const, marks };
    const sign = { bar, tick, kind: 'sign' as const, item: level };
    return hasLevels ? [restore, sign] : [restore];
  });
  // what is restored stands before what the bar says itself
  return [...restored, ...played].sort((a, b) => a.tick - b.tick || a.bar - b.bar);
}

/** Marks and loudness in force before a bar, read from the beginning without repeats. */
function writtenBefore(signs: readonly Placed<Sign>[], measure: number) {
  let marks: readonly string[] = [];
  let level: Sign = { kind: 'dynamic', name: 'mf' };
  for (const sign of signs) {
    if (sign.measure >= measure) break;
    if (sign.kind === 'mark') marks = withMark(marks, sign.name);
    if (sign.kind === 'ordinary') marks = ordinary(marks);
    if (sign.kind === 'loudness') level = { kind: 'loudness', percent: sign.percent };
    if (sign.kind === 'dynamic' && dynamicOf(sign.name).after !== null)
      level = { kind: 'dynamic', name: sign.name };
  }
  return { marks, level };
}
