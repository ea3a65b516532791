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
import type { Articulation, SpeaksAfterStep, SwitchMessage } from '../types.js';
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
    switch: listOf(field(tree, 'switch')).flatMap((message) => switchMessage(source, message) ?? []),
    ...(overlap ? { joins: { overlap } } : {}),
    ...(lengthTree ? { length } : {}),
    loudness: word(source, field(tree, 'loudness'), ['velocity', 'controller']),
    speaksAfter,
    place: placeOfName(source, name),
  };
}

function switchMessage(source: Source, tree: Tree): SwitchMessage | undefined {
  const group = present<{ group?: string }>({ group: text(source, field(tree, 'group')) });
  const key = pitch(source, field(tree, 'note'));
  if (key !== undefined) return { kind: 'note', key, ...group };
  const of = (name: string) => number(source, field(tree, name));
  const [controller, value, program, channel] = [of('controller'), of('value'), of('program'), of('channel')];
  if (controller !== undefined && value !== undefined)
    return { kind: 'controller', controller, value, ...group };
  if (program !== undefined)
    return { kind: 'program', program, ...bank(source, field(tree, 'bank')), ...group };
  return channel === undefined ? undefined : { kind: 'channel', channel: channel - 1 };
}

function bank(source: Source, tree: Tree | undefined): { readonly bank?: readonly [number, number] } {
  const [most, least] = listOf(tree).map((half) => number(source, half));
  return most === undefined || least === undefined ? {} : { bank: [most, least] };
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
