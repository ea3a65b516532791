import type { ArticulationMap, Example, Rule, Switching } from '../../model/map.js';
import { placeOf } from '../yaml/places.js';
import { articulationNamed, markPath } from './articulation.js';
import { conditionAt } from './condition.js';
import { articulationAt, type Context, markAt, pitchAt } from './context.js';
import { parseDuration } from './duration.js';
import { listOf, type RawExample, type RawRule } from './raw.js';

/** Builds the map from data that the schema has let through, and reports what its texts do not mean. */
export function assemble(context: Context): ArticulationMap {
  const { raw, yaml } = context;
  const { dynamics } = raw;
  return {
    file: yaml.file,
    library: raw.library,
    instrument: raw.instrument,
    family: raw.family,
    ...(raw.players === undefined ? {} : { players: raw.players }),
    middleC: context.middleC,
    range: {
      low: pitchAt(context, raw.range[0], ['range', 0]),
      high: pitchAt(context, raw.range[1], ['range', 1]),
    },
    switching: switching(context),
    chords: raw.chords ?? 'top',
    chordWindow: parseDuration(raw['chord-window'] ?? '35ms'),
    articulations: new Map(
      Object.entries(raw.articulations).map(([name, of]) => [name, articulationNamed(context, name, of)]),
    ),
    hysteresis: Number.parseFloat(raw.hysteresis ?? '0%') / 100,
    rules: raw.rules.map((rule, index) => ruleAt(context, rule, index)),
    ...(dynamics
      ? { dynamics: { controller: dynamics.controller, levels: new Map(Object.entries(dynamics.levels)) } }
      : {}),
    examples: (raw.examples ?? []).map((example, index) => exampleAt(context, example, index)),
  };
}

function switching({ raw: { switching: raw = {} } }: Context): Switching {
  const { 'after-rest': afterRest, 'every-bars': everyBars } = raw.restate ?? {};
  return {
    notes: raw.notes ?? 'latching',
    lead: parseDuration(raw.lead ?? '20ms'),
    tap: parseDuration(raw.tap ?? '30ms'),
    velocity: raw.velocity ?? 100,
    restate: {
      ...(afterRest === undefined ? {} : { afterRest: parseDuration(afterRest) }),
      ...(everyBars === undefined ? {} : { everyBars }),
    },
  };
}

function ruleAt(context: Context, raw: RawRule, index: number): Rule {
  const path = ['rules', index];
  const marked = listOf(raw.marked).map((mark, at) =>
    markAt(context, mark, markPath([...path, 'marked'], raw.marked, at)),
  );
  return {
    index,
    ...(marked.length > 0 ? { marked } : {}),
    ...(raw.when ? { when: conditionAt(context, raw.when, [...path, 'when']) } : {}),
    use: articulationAt(context, raw.use, [...path, 'use']),
    place: placeOf(context.yaml, path),
  };
}

function exampleAt(context: Context, raw: RawExample, index: number): Example {
  const path = ['examples', index];
  if (raw.expect.length !== raw.notes.length)
    context.report(
      'example-length',
      'error',
      [...path, 'expect'],
      `the example has ${raw.notes.length} notes, but expects ${raw.expect.length} articulations`,
      'expect one for each note',
    );
  return {
    notes: raw.notes.map((note, at) => ({
      pitch: pitchAt(context, note.pitch, [...path, 'notes', at, 'pitch']),
      held: parseDuration(note.held),
      ...(note.pace === undefined ? {} : { pace: parseDuration(note.pace) }),
      velocity: note.velocity ?? 80,
      marked: listOf(note.marked).map((mark, which) =>
        markAt(context, mark, markPath([...path, 'notes', at, 'marked'], note.marked, which)),
      ),
    })),
    expect: raw.expect.map((name, at) => articulationAt(context, name, [...path, 'expect', at])),
    bpm: raw.bpm ?? 120,
    place: placeOf(context.yaml, path),
  };
}
