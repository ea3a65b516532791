import { type Place, quoted } from '../../diagnostics/index.js';
import { type DynamicMark, defaultShape, dynamicMarks, type LevelTable } from '../../dynamics/index.js';
import { field, listOf, number, present, type Source, text } from '../../map/index.js';
import type { Tree } from '../../yaml/index.js';
import { type Cue, type CueDivide, type CueDynamics, type CuePart, deals, type Located } from '../types.js';
import { layer } from './layer.js';
import { checkOutput } from './output.js';
import { strayPath } from './path.js';
import { timing } from './timing.js';

/** Builds the cue from a judged document, and reports what its texts do not mean. */
export function assemble(source: Source): Cue {
  const { root, file } = source.yaml;
  const seed = number(source, field(root, 'seed'));
  const defaults = field(field(root, 'defaults'), 'timing');
  const trees = itemsOf(field(root, 'parts'));
  reportTwins(source, trees, 'part');
  checkOutput(source, root);
  return {
    file,
    ...present<{ title?: string; referenceLevel?: number }>({
      title: text(source, field(root, 'title')),
      referenceLevel: number(source, field(root, 'reference-level')),
    }),
    source: path(source, field(root, 'source')),
    output: path(source, field(root, 'output')),
    seed: seed ?? 1,
    preroll: number(source, field(root, 'preroll')) ?? 0,
    controllers: {
      level: number(source, field(root, 'level-controller')) ?? 7,
      seat: number(source, field(root, 'seat-controller')) ?? 10,
    },
    parts: trees.map((tree) => part(source, tree, defaults, seed)),
  };
}

function part(source: Source, tree: Tree, defaults: Tree | undefined, seed: number | undefined): CuePart {
  const track = field(tree, 'track');
  const layers = itemsOf(field(tree, 'layers'));
  reportTwins(source, layers, 'layer');
  const [players, divided] = [field(tree, 'players'), field(tree, 'divide')];
  if (players && divided)
    source.report(
      'unknown-key',
      players,
      '"players" means nothing beside "divide"',
      'its desks say how many there are',
    );
  return {
    name: text(source, field(tree, 'name')) ?? '',
    trackPlace: source.yaml.placeAt((track ?? field(tree, 'channel') ?? tree).offset),
    map: path(source, field(tree, 'map')),
    ...present<
      Pick<CuePart, 'track' | 'channel' | 'timing' | 'players' | 'divide' | 'level' | 'seat' | 'dynamics'>
    >({
      track: number(source, track) ?? text(source, track),
      channel: number(source, field(tree, 'channel')),
      timing: timing(source, [defaults, field(tree, 'timing')], seed),
      players: number(source, players),
      divide: divided && divide(source, divided),
      level: number(source, field(tree, 'level')),
      seat: number(source, field(tree, 'seat')),
      dynamics: dynamics(source, field(tree, 'dynamics')),
    }),
    layers: layers.map((one) => layer(source, one, path)),
    place: source.yaml.placeAt(tree.offset),
  };
}

function divide(source: Source, tree: Tree): CueDivide {
  const by = text(source, field(tree, 'by'));
  const desks = field(tree, 'players');
  return {
    by: deals.find((one) => one === by) ?? 'top-down',
    players: desks ? listOf(desks).flatMap((one) => number(source, one) ?? []) : [],
  };
}

const keepKeys = ['from', 'levels'] as const;
const shapeKeys = ['arch', 'velocities', 'swell', 'decay'] as const;

function dynamics(source: Source, tree: Tree | undefined): CueDynamics | undefined {
  const kind = text(source, field(tree, 'source'));
  if (!tree || kind === undefined) return undefined;
  const idle = [...(kind === 'keep' ? ['start'] : keepKeys), ...(kind === 'shape' ? [] : shapeKeys)];
  for (const key of idle) {
    const value = field(tree, key);
    if (value)
      source.report('unknown-key', value, `${quoted(key)} means nothing with source ${kind}`, goesWith(key));
  }
  if (kind === 'keep') return keep(source, tree);
  const start = mark(text(source, field(tree, 'start')));
  if (kind === 'marks') return { source: 'marks', start };
  const amount = (key: (typeof shapeKeys)[number]) => number(source, field(tree, key)) ?? defaultShape[key];
  return {
    source: 'shape',
    start,
    arch: amount('arch'),
    velocities: amount('velocities'),
    swell: amount('swell'),
    decay: amount('decay'),
  };
}

function goesWith(key: string): string {
  if (key === 'start') return 'it goes with shape and marks';
  return keepKeys.some((one) => one === key) ? 'it goes with keep' : 'it goes with shape';
}

function keep(source: Source, tree: Tree): CueDynamics {
  const levels = field(tree, 'levels');
  return {
    source: 'keep',
    ...present<{ from?: number; levels?: LevelTable }>({
      from: number(source, field(tree, 'from')),
      levels: levels && levelTable(source, levels),
    }),
  };
}

/** The values of marks, and a report (out-of-range) where they do not rise. */
function levelTable(source: Source, tree: Tree): LevelTable {
  const table = dynamicMarks.flatMap((name) => {
    const value = number(source, field(tree, name));
    return value === undefined ? [] : [[name, value] as const];
  });
  const falling = table.find(([, value], index) => value <= (table[index - 1]?.[1] ?? -1));
  const at = falling && field(tree, falling[0]);
  if (falling && at)
    source.report(
      'out-of-range',
      at,
      `${falling[0]} is ${falling[1]}, no more than the softer mark before it`,
      'a louder mark has a higher value',
    );
  return new Map(table);
}

function mark(name: string | undefined): DynamicMark {
  return dynamicMarks.find((one) => one === name) ?? 'mf';
}

/** A path, and a report (path-outside) where it does not stay below the cue's folder. */
function path(source: Source, tree: Tree | undefined): Located {
  const spelled = text(source, tree) ?? '';
  const stray = tree && source.isSound(tree) ? strayPath(spelled) : undefined;
  if (tree && stray !== undefined)
    source.report(
      'path-outside',
      tree,
      `the path ${quoted(spelled)} does not stay below the folder of the cue: ${stray}`,
      'write paths from the folder of the cue, with /, as maps/horns.yaml',
    );
  const place: Place = source.yaml.placeAt((tree ?? source.yaml.root).offset);
  return { text: spelled, place };
}

/** Names that stand for two things of one list. */
function reportTwins(source: Source, trees: readonly Tree[], what: string): void {
  const seen = new Set<string>();
  for (const tree of trees) {
    const name = field(tree, 'name');
    const spelled = text(source, name);
    if (!name || spelled === undefined) continue;
    if (seen.has(spelled))
      source.report(
        'same-name',
        name,
        `a ${what} before this one is named ${quoted(spelled)} too`,
        `give each ${what} a name of its own`,
      );
    seen.add(spelled);
  }
}

/** The items of a list; none where there is another thing in its place. */
function itemsOf(tree: Tree | undefined): readonly Tree[] {
  return Array.isArray(tree?.data) ? listOf(tree) : [];
}
