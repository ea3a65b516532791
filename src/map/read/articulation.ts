import type { Tree } from '../../yaml/index.js';
import { readCondition } from '../conditions/index.js';
import {
  duration,
  entries,
  field,
  listOf,
  number,
  pitch,
  placeOfName,
  present,
  type Source,
  text,
  word,
} from '../source/index.js';
import { readSwitchMessage } from '../switch-messages/index.js';
import type { Articulation, TimeStep } from '../types.js';
import { meanings } from './names.js';

const none = { unit: 'ms', ms: 0 } as const;

/** The articulations of the map by their names. One is doubtful where its switch cannot be told. */
export function articulations(source: Source, tree: Tree | undefined): ReadonlyMap<string, Articulation> {
  return new Map(
    entries(tree).map(([name, of]) => {
      const means = meanings(source, field(of, 'means'));
      const speaksAfter = timeSteps(source, field(of, 'speaks-after'), 'speaks-after');
      return [name, source.build(of, () => articulation(source, name, of, means, speaksAfter))];
    }),
  );
}

function articulation(
  source: Source,
  name: string,
  tree: Tree,
  means: readonly string[],
  speaksAfter: readonly TimeStep[],
): Articulation {
  const overlap = field(field(tree, 'joins'), 'overlap');
  const key = pitch(source, field(tree, 'key'));
  const velocity = velocityOf(source, field(tree, 'velocity'));
  const lengthTree = field(tree, 'length');
  const length = present<NonNullable<Articulation['length']>>({
    min: duration(source, field(lengthTree, 'min')),
    max: duration(source, field(lengthTree, 'max')),
  });
  return {
    name,
    means,
    switch: listOf(field(tree, 'switch')).flatMap((message) => readSwitchMessage(source, message) ?? []),
    ...(key === undefined ? {} : { key }),
    ...(velocity ? { velocity } : {}),
    ...(overlap ? { joins: { overlap: timeSteps(source, overlap, 'joins.overlap') } } : {}),
    ...(lengthTree ? { length } : {}),
    loudness: word(source, field(tree, 'loudness'), ['velocity', 'controller']),
    speaksAfter,
    ...standInOf(source, field(tree, 'stand-in')),
    place: placeOfName(source, name),
  };
}

function standInOf(source: Source, tree: Tree | undefined): Pick<Articulation, 'standIn'> {
  if (!tree) return {};
  const length = text(source, field(tree, 'length'));
  const velocity = text(source, field(tree, 'velocity'));
  const isShare = length?.endsWith('%');
  const standIn = present<NonNullable<Articulation['standIn']>>({
    program: number(source, field(tree, 'program')),
    key: pitch(source, field(tree, 'key')),
    length: isShare ? Number.parseFloat(length ?? '') / 100 : duration(source, field(tree, 'length')),
    velocity: velocity === undefined ? undefined : Number.parseFloat(velocity) / 100,
  });
  return { standIn };
}

/** The range into which velocities are laid, and a report (range-reversed) where it runs down. */
function velocityOf(source: Source, tree: Tree | undefined): Articulation['velocity'] {
  const into = field(tree, 'into');
  const [least, most] = listOf(into).map((end) => number(source, end));
  if (!into || least === undefined || most === undefined) return undefined;
  if (least > most)
    source.report(
      'range-reversed',
      into,
      `the velocities begin at ${least} and end below it, at ${most}`,
      'write the lowest velocity first',
    );
  return { into: [least, most] };
}

/** A time alone, or steps of which the last holds for all other notes (no-last-rule where it does not). */
function timeSteps(source: Source, tree: Tree | undefined, key: string): readonly TimeStep[] {
  if (!tree || !Array.isArray(tree.data)) return [{ is: duration(source, tree) ?? none }];
  const trees = listOf(tree);
  const last = trees.at(-1);
  if (last && field(last, 'when'))
    source.report(
      'no-last-rule',
      last,
      `the last step of ${key} has a when, so that it leaves some notes out`,
      'add a step with is alone, for all other notes',
    );
  return trees.map((step) => {
    const when = field(step, 'when');
    return {
      is: duration(source, field(step, 'is')) ?? none,
      ...(when ? { when: readCondition(source, when) } : {}),
    };
  });
}
