// What a rule may ask of a note: each kind of condition in a file of its own, listed in `list.ts`.
import type { Duration, Line, MeasuredNote } from '../../midi/index.js';
import type { Tree } from '../../yaml/index.js';
import { entries, type Source } from '../source/index.js';
import type { Condition } from './condition.js';
import type { Interval } from './interval.js';
import type { AnyCondition, Bound, CombinedKind, EveryKind, Fits, MeasuredKind, Parts } from './kind.js';
import { combinedKinds, measuredKinds } from './list.js';

export type { Condition } from './condition.js';
export { formatDuration } from './duration-range.js';
export { type Interval, isEmpty, liesIn } from './interval.js';
export { conditionSchemas } from './schema.js';

/** The key of a condition ties it to its kind, so that each kind gets only conditions of its own. */
const measured: ReadonlyMap<string, MeasuredKind<AnyCondition>> = byKey(measuredKinds);
const combined: ReadonlyMap<string, CombinedKind<AnyCondition>> = byKey(combinedKinds);

function byKey<K extends { readonly key: string }>(kinds: readonly K[]): ReadonlyMap<string, K> {
  return new Map(kinds.map((kind) => [kind.key, kind]));
}

function kindOf({ key }: AnyCondition) {
  return measured.get(key) ?? combined.get(key);
}

const reading = everyKind(() => undefined);

function everyKind(holds: EveryKind['holds']): EveryKind {
  const every: EveryKind = {
    read: (source, tree) => {
      const of = entries(tree).flatMap(([key, value]) => kindOf({ key })?.read(source, value, every) ?? []);
      const [only] = of;
      return only && of.length === 1 ? only : ({ key: 'all', of } as AnyCondition);
    },
    bind: (condition, line) => kindOf(condition)?.bind(condition, line, every) ?? (() => false),
    format: (condition, note) => kindOf(condition)?.format(condition, note, every) ?? condition.key,
    holds,
  };
  return every;
}

/** A condition as the rules test it; several keys beside each other must all hold. What is faulty is left out. */
export function readCondition(source: Source, tree: Tree): Condition {
  return reading.read(source, tree) as Condition;
}

/** A test of a line's notes against a condition. */
export function bindCondition(condition: Condition, line: Line): Fits {
  return reading.bind(condition, line);
}

/** Where a note stands: its line, and what the onset before it was given. */
export interface Standing {
  readonly line: Line;
  readonly previous?: string;
}

/** What a condition measured on a note, in words; with its standing, an `any` names only what held. */
export function formatCondition(condition: Condition, note: MeasuredNote, standing?: Standing): string {
  if (!standing) return reading.format(condition, note);
  const { line, previous } = standing;
  return everyKind((one, of) => boundTo(one, line)(of, previous)).format(condition, note);
}

/** Tests that were bound, so that a run is not looked for again with every note that is told of. */
const bound = new WeakMap<Line, WeakMap<AnyCondition, Fits>>();

function boundTo(condition: AnyCondition, line: Line): Fits {
  const ofLine = bound.get(line) ?? new WeakMap<AnyCondition, Fits>();
  bound.set(line, ofLine);
  const fits = ofLine.get(condition) ?? reading.bind(condition, line);
  ofLine.set(condition, fits);
  return fits;
}

/** What a condition is made of; undefined where it asks something of the note itself. */
export function partsOf(condition: Condition): Parts<Condition> | undefined {
  return combined.get(condition.key)?.parts(condition) as Parts<Condition> | undefined;
}

/** The interval of a condition on a single measure; undefined for others, and where units are mixed. */
export function intervalOf(condition: Condition): Interval | undefined {
  return measured.get(condition.key)?.interval(condition);
}

/** Whether every note that fits one condition fits another of its kind, where intervals do not tell. */
export function impliesOfKind(narrow: Condition, wide: Condition): boolean {
  return narrow.key === wide.key && (measured.get(narrow.key)?.implies(narrow, wide) ?? false);
}

/** The durations that a condition measures by, those of its parts among them, each with the key of its condition. */
export function durationsIn(condition: Condition): readonly (readonly [string, Duration])[] {
  return singlesOf(condition).flatMap((single) =>
    (measured.get(single.key)?.durations(single) ?? []).map((length) => [single.key, length] as const),
  );
}

/** The bounds that a condition has for steadiness, those of its parts among them. */
export function boundsIn(condition: Condition): readonly Bound[] {
  return singlesOf(condition).flatMap((single) => measured.get(single.key)?.bounds(single) ?? []);
}

/** Whether a condition, or a part of it, asks what the onset before was given. */
export function asksPrevious(condition: Condition): boolean {
  return singlesOf(condition).some(({ key }) => key === 'after');
}

/** What a condition asks of the note itself, all combinations taken apart. */
function singlesOf(condition: Condition): readonly Condition[] {
  return partsOf(condition)?.of.flatMap(singlesOf) ?? [condition];
}
