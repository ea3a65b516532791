import { curveThrough, type Target } from './curve.js';
import type { Struck } from './struck.js';

/**
 * A curve that stands still while the notes of a chord are struck one after another, at the level at which the last of
 * them is: a chord has one loudness. It is taken up again from there. Linear in targets and onsets, but for a bisection
 * for each.
 *
 * @param targets their places never fall; at least one
 * @param onsets rising, none before the last note of the one before it
 */
export function heldOverSpreads(targets: readonly Target[], onsets: readonly Struck[]): readonly Target[] {
  const spreads = onsets.filter(({ tick, lastTick }) => lastTick > tick);
  if (spreads.length === 0) return targets;
  const curve = curveThrough(targets);
  const held: Target[] = [];
  let next = 0;
  const takeUpTo = (isTaken: (at: number) => boolean) => {
    const taken: Target[] = [];
    for (let one = targets[next]; one && isTaken(one.at); one = targets[next]) {
      taken.push(one);
      next += 1;
    }
    return taken;
  };
  for (const { tick, lastTick } of spreads) {
    for (const target of takeUpTo((at) => at < tick)) held.push(target);
    takeUpTo((at) => at <= lastTick);
    const level = curve.valueAt(lastTick);
    if (held.length > 0) held.push({ at: tick, level: curve.valueBefore(tick) });
    held.push({ at: tick, level }, { at: lastTick, level });
  }
  return [...held, ...targets.slice(next)];
}
