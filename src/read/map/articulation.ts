import type { Articulation, SpeaksAfterStep, SwitchMessage } from '../../model/map.js';
import { type Path, placeOfKey } from '../yaml/places.js';
import { conditionAt } from './condition.js';
import { type Context, markAt, pitchAt } from './context.js';
import { parseDuration } from './duration.js';
import { listOf, type RawArticulation, type RawMessage } from './raw.js';

/** One articulation of the map, by its name. */
export function articulationNamed(context: Context, name: string, raw: RawArticulation): Articulation {
  const path: Path = ['articulations', name];
  const { joins, length } = raw;
  return {
    name,
    means: listOf(raw.means).map((mark, index) =>
      markAt(context, mark, markPath([...path, 'means'], raw.means, index)),
    ),
    switch: listOf(raw.switch).map((message, index) =>
      messageAt(context, message, markPath([...path, 'switch'], raw.switch, index)),
    ),
    ...(joins ? { joins: { overlap: parseDuration(joins.overlap) } } : {}),
    ...(length ? { length: lengthOf(length) } : {}),
    loudness: raw.loudness ?? 'velocity',
    speaksAfter: speaksAfter(context, raw['speaks-after'], [...path, 'speaks-after']),
    place: placeOfKey(context.yaml, ['articulations'], name),
  };
}

/** The path of an item, where one may stand without a list around it. */
export function markPath(path: Path, value: unknown, index: number): Path {
  return Array.isArray(value) ? [...path, index] : path;
}

function messageAt(context: Context, raw: RawMessage, path: Path): SwitchMessage {
  const group = raw.group === undefined ? {} : { group: raw.group };
  if (raw.note !== undefined)
    return { kind: 'note', key: pitchAt(context, raw.note, [...path, 'note']), ...group };
  if (raw.controller !== undefined)
    return { kind: 'controller', controller: raw.controller, value: raw.value ?? 0, ...group };
  if (raw.program !== undefined)
    return { kind: 'program', program: raw.program, ...(raw.bank ? { bank: raw.bank } : {}), ...group };
  return { kind: 'channel', channel: (raw.channel ?? 1) - 1 };
}

function lengthOf({ min, max }: NonNullable<RawArticulation['length']>): NonNullable<Articulation['length']> {
  return {
    ...(min === undefined ? {} : { min: parseDuration(min) }),
    ...(max === undefined ? {} : { max: parseDuration(max) }),
  };
}

function speaksAfter(
  context: Context,
  raw: RawArticulation['speaks-after'],
  path: Path,
): readonly SpeaksAfterStep[] {
  if (raw === undefined) return [{ is: { unit: 'ms', ms: 0 } }];
  if (typeof raw === 'string') return [{ is: parseDuration(raw) }];
  const steps = raw.map(({ when, is }, index): SpeaksAfterStep => {
    const condition = when && conditionAt(context, when, [...path, index, 'when']);
    return { is: parseDuration(is), ...(condition ? { when: condition } : {}) };
  });
  if (steps.at(-1)?.when)
    context.report(
      'no-last-rule',
      'error',
      [...path, steps.length - 1],
      'the last step of speaks-after has a when, so that it leaves some notes out',
      'add a step with is alone, for all other notes',
    );
  return steps;
}
