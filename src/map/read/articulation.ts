import type { Tree } from '../../yaml/index.js';
import { readCondition } from '../conditions/index.js';
import {
  duration,
  entries,
  field,
  listOf,
  placeOfName,
  present,
  type Source,
  word,
} from '../source/index.js';
import { readSwitchMessage } from '../switch-messages/index.js';
import type { Articulation, SpeaksAfterStep } from '../types.js';
import { marks } from './names.js';

const none = { unit: 'ms', ms: 0 } as const;

/** The articulations of the map by their names. One is doubtful where its switch cannot be told. */
export function articulations(source: Source, tree: Tree | undefined): ReadonlyMap<string, Articulation> {
  return new Map(
    entries(tree).map(([name, of]) => {
      const means = marks(source, field(of, 'means'));
      const speaksAfter = speaksAfterSteps(source, field(of, 'speaks-after'));
      return [name, source.build(of, () => articulation(source, name, of, means, speaksAfter))];
    }),
  );
}

function articulation(
  source: Source,
  name: string,
  tree: Tree,
  means: readonly string[],
  speaksAfter: readonly SpeaksAfterStep[],
): Articulation {
  const overlap = duration(source, field(field(tree, 'joins'), 'overlap'));
  const lengthTree = field(tree, 'length');
  const length = present<NonNullable<Articulation['length']>>({
    min: duration(source, field(lengthTree, 'min')),
    max: duration(source, field(lengthTree, 'max')),
  });
  return {
    name,
    means,
    switch: listOf(field(tree, 'switch')).flatMap((message) => readSwitchMessage(source, message) ?? []),
    ...(overlap ? { joins: { overlap } } : {}),
    ...(lengthTree ? { length } : {}),
    loudness: word(source, field(tree, 'loudness'), ['velocity', 'controller']),
    speaksAfter,
    place: placeOfName(source, name),
  };
}

function speaksAfterSteps(source: Source, tree: Tree | undefined): readonly SpeaksAfterStep[] {
  if (!tree || !Array.isArray(tree.data)) return [{ is: duration(source, tree) ?? none }];
  const trees = listOf(tree);
  const last = trees.at(-1);
  if (last && field(last, 'when'))
    source.report(
      'no-last-rule',
      last,
      'the last step of speaks-after has a when, so that it leaves some notes out',
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
