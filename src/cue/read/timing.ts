import { field, listOf, parseDuration, present, type Source, text } from '../../map/index.js';
import {
  asksForTiming,
  asPlayed,
  defaultSeed,
  type GridWidth,
  rollOrders,
  type TimingOptions,
} from '../../timing/index.js';
import type { Tree } from '../../yaml/index.js';

/**
 * Timing options as the keys of several mappings say; of a key that several have, the last counts. Undefined where they
 * ask for nothing.
 */
export function timing(
  source: Source,
  trees: readonly (Tree | undefined)[],
  seed: number = defaultSeed,
): TimingOptions | undefined {
  const last = (key: string) => trees.map((tree) => field(tree, key)).findLast((tree) => tree !== undefined);
  const isOn = (key: string) => last(key)?.data === true;
  const [pull, grid, roll] = [text(source, last('pull')), last('grid'), time(source, last('roll'))];
  const order = text(source, last('roll-order'));
  const options: TimingOptions = {
    ...asPlayed,
    compensate: isOn('compensate'),
    joins: isOn('joins'),
    ...present<Pick<TimingOptions, 'pull' | 'grids' | 'roll' | 'loosenMs'>>({
      pull: pull === undefined ? undefined : Number.parseFloat(pull) / 100,
      grids: grid && listOf(grid).flatMap((one) => width(source, one)),
      roll:
        roll === undefined
          ? undefined
          : { sdMs: roll, order: rollOrders.find((one) => one === order) ?? 'unordered' },
      loosenMs: time(source, last('loosen')),
    }),
    seed,
  };
  return asksForTiming(options) ? options : undefined;
}

function time(source: Source, tree: Tree | undefined): number | undefined {
  const spelled = text(source, tree);
  const duration = spelled === undefined ? undefined : parseDuration(spelled);
  return duration?.unit === 'ms' ? duration.ms : undefined;
}

function width(source: Source, tree: Tree): readonly GridWidth[] {
  const [numerator, denominator] = (text(source, tree) ?? '').split('/').map(Number);
  return numerator && denominator ? [{ numerator, denominator }] : [];
}
