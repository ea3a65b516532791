import { plural } from '../../diagnostics/index.js';
import type { Tree } from '../../yaml/index.js';
import { readCondition } from '../conditions/index.js';
import {
  duration,
  entries,
  field,
  listOf,
  number,
  parseDuration,
  pitch,
  present,
  type Source,
  text,
  word,
} from '../source/index.js';
import {
  type ArticulationMap,
  defaultChordWindow,
  type Example,
  type Rule,
  type Switching,
} from '../types.js';
import { articulations } from './articulation.js';
import { articulationName, marks } from './names.js';
import { panAnswer } from './pan.js';

/** Builds the map from a judged document, and reports what its texts do not mean. */
export function assemble(source: Source): ArticulationMap {
  const { root, file } = source.yaml;
  const dynamics = field(root, 'dynamics');
  const levels = entries(field(dynamics, 'levels')).map(
    ([mark, value]) => [mark, number(source, value) ?? 0] as const,
  );
  return {
    file,
    bases: [],
    library: text(source, field(root, 'library')) ?? '',
    instrument: text(source, field(root, 'instrument')) ?? '',
    family: text(source, field(root, 'family')) ?? '',
    ...present<Pick<ArticulationMap, 'players' | 'seat' | 'width' | 'pan' | 'referenceLevel'>>({
      referenceLevel: number(source, field(root, 'reference-level')),
      players: number(source, field(root, 'players')),
      seat: number(source, field(root, 'seat')),
      width: number(source, field(root, 'width')),
      pan: panAnswer(source, field(root, 'pan')),
    }),
    middleC: source.middleC ?? 4,
    range: range(source, field(root, 'range')),
    transpose: number(source, field(root, 'transpose')) ?? 0,
    pedal: pedal(source, root),
    switching: switching(source, field(root, 'switching')),
    chords: word(source, field(root, 'chords'), ['top', 'each']),
    chordWindow: duration(source, field(root, 'chord-window')) ?? defaultChordWindow,
    articulations: articulations(source, field(root, 'articulations')),
    steadiness: Number.parseFloat(text(source, field(root, 'steadiness')) ?? '0%') / 100,
    rules: itemsOf(field(root, 'rules')).map((tree, index) => rule(source, tree, index)),
    ...(dynamics
      ? {
          dynamics: {
            controller: number(source, field(dynamics, 'controller')) ?? 0,
            levels: new Map(levels),
          },
        }
      : {}),
    examples: itemsOf(field(root, 'examples')).map((tree) => example(source, tree)),
  };
}

/** The items of a list; none where there is another thing in its place. */
function itemsOf(tree: Tree | undefined): readonly Tree[] {
  return Array.isArray(tree?.data) ? listOf(tree) : [];
}

/** Keyboards and plucked instruments ring on under the pedal; others have none. */
function pedal(source: Source, root: Tree): ArticulationMap['pedal'] {
  const rings = ['keyboard', 'plucked'].includes(text(source, field(root, 'family')) ?? '');
  return word(source, field(root, 'pedal'), rings ? ['lengthens', 'ignored'] : ['ignored', 'lengthens']);
}

function range(source: Source, tree: Tree | undefined): ArticulationMap['range'] {
  const [low, high] = listOf(tree).map((end) => pitch(source, end));
  // What cannot be told is doubtful: it stands for no key at all.
  const isKnown = low !== undefined && high !== undefined;
  return source.build(isKnown ? tree : undefined, () => ({ low: low ?? 0, high: high ?? 127 }));
}

function switching(source: Source, tree: Tree | undefined): Switching {
  const restate = field(tree, 'restate');
  return {
    notes: word(source, field(tree, 'notes'), ['latching', 'momentary']),
    lead: duration(source, field(tree, 'lead')) ?? parseDuration('20ms'),
    tap: duration(source, field(tree, 'tap')) ?? parseDuration('30ms'),
    velocity: number(source, field(tree, 'velocity')) ?? 100,
    restate: present<Switching['restate']>({
      afterRest: duration(source, field(restate, 'after-rest')),
      everyBars: number(source, field(restate, 'every-bars')),
    }),
  };
}

function rule(source: Source, tree: Tree, index: number): Rule {
  const use = articulationName(source, field(tree, 'use'));
  const [whenTree, markedTree] = [field(tree, 'when'), field(tree, 'marked')];
  return source.build(tree, () => ({
    index,
    ...(markedTree ? { marked: marks(source, markedTree) } : {}),
    ...(whenTree ? { when: readCondition(source, whenTree) } : {}),
    use,
    place: source.yaml.placeAt(tree.offset),
  }));
}

function example(source: Source, tree: Tree): Example {
  const [notes, expect] = [field(tree, 'notes'), field(tree, 'expect')];
  const [noteTrees, names] = [itemsOf(notes), itemsOf(expect)];
  if (expect && noteTrees.length > 0 && Array.isArray(expect.data) && noteTrees.length !== names.length)
    source.report(
      'example-length',
      expect,
      `the example has ${plural(noteTrees.length, 'note')}, but expects ${plural(names.length, 'articulation')}`,
      'expect one for each note',
    );
  return {
    notes: noteTrees.map((note) => ({
      pitch: pitch(source, field(note, 'pitch')) ?? 0,
      held: duration(source, field(note, 'held')) ?? parseDuration('0ms'),
      ...present<{ pace?: Example['notes'][number]['held'] }>({
        pace: duration(source, field(note, 'pace')),
      }),
      velocity: number(source, field(note, 'velocity')) ?? 80,
      marked: marks(source, field(note, 'marked')),
    })),
    expect: names.map((name) => articulationName(source, name)),
    bpm: number(source, field(tree, 'bpm')) ?? 120,
    place: source.yaml.placeAt(tree.offset),
  };
}
