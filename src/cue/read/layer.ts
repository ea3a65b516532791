import {
  duration,
  field,
  listOf,
  number,
  present,
  readCondition,
  type Source,
  text,
} from '../../map/index.js';
import type { Tree } from '../../yaml/index.js';
import type { CueLayer, LayerChoice, Located } from '../types.js';

/** Builds a layer of a part. */
export function layer(
  source: Source,
  tree: Tree,
  path: (source: Source, tree: Tree | undefined) => Located,
): CueLayer {
  const velocity = field(tree, 'velocity');
  const timing = field(tree, 'timing');
  const on = field(tree, 'on');
  const [map, articulation] = [field(tree, 'map'), field(tree, 'articulation')];
  return {
    name: text(source, field(tree, 'name')) ?? '',
    velocity: {
      scale: number(source, field(velocity, 'scale')) ?? 1,
      add: number(source, field(velocity, 'add')) ?? 0,
    },
    transpose: number(source, field(tree, 'transpose')) ?? 0,
    ...present<
      Pick<CueLayer, 'map' | 'articulation' | 'channel' | 'on' | 'heldAtMost' | 'level' | 'seat' | 'timing'>
    >({
      map: map && path(source, map),
      articulation: first(articulation && spelled(source, articulation)),
      channel: number(source, field(tree, 'channel')),
      on: on && choice(source, on),
      heldAtMost: duration(source, field(tree, 'held-at-most')),
      level: number(source, field(tree, 'level')),
      seat: number(source, field(tree, 'seat')),
      timing: timing && {
        compensate: field(timing, 'compensate')?.data === true,
        joins: field(timing, 'joins')?.data === true,
      },
    }),
    place: source.yaml.placeAt(tree.offset),
  };
}

function choice(source: Source, tree: Tree): LayerChoice {
  const [marked, when] = [field(tree, 'marked'), field(tree, 'when')];
  return {
    ...present<Pick<LayerChoice, 'marked' | 'when'>>({
      marked: marked && listOf(marked).flatMap((one) => spelled(source, one)),
      when: when && readCondition(source, when),
    }),
    each: text(source, field(tree, 'each')) === 'note' ? 'note' : 'chord',
  };
}

function first<T>(found: readonly T[] | undefined): T | undefined {
  return found?.[0];
}

function spelled(source: Source, tree: Tree): readonly Located[] {
  const mark = text(source, tree);
  return mark === undefined ? [] : [{ text: mark, place: source.yaml.placeAt(tree.offset) }];
}
