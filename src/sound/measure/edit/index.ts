// Puts measured values into the text of a map; every other character stays.
import { parseDocument } from 'yaml';
import type { MeasureResult } from '../result.js';
import { type Refused, spliceFor } from './splice.js';
import { type Change, changesOf, type Writable } from './values.js';

export { type Change, changesOf, type Writable, writable } from './values.js';

/** A value that was not written, and why. */
export interface NotWritten {
  readonly path: readonly string[];
  readonly text: string;
  readonly why: string;
}

/** A map's text with measured values. */
export interface EditedMap {
  readonly text: string;
  /** What is written there now, whether it was there before or not. */
  readonly written: readonly Change[];
  readonly notWritten: readonly NotWritten[];
}

const reasons: Readonly<Record<Refused | 'spoils', string>> = {
  'not-there': 'this file does not have the place: it may stand in the map that it is based on',
  alias: 'an alias stands there, and what it names is used elsewhere too',
  shape: 'what stands there is not of the shape that was expected',
  spoils: 'putting it there would change something else in the file',
};

/**
 * Writes a result into a map. Comments, order, spacing and quotes stay; only values that were measured change, and keys
 * that were not there are put behind their neighbours. Each change is read back: one that would do anything else is not
 * made, and is told.
 *
 * @param text of a map that was read without errors
 * @param what is written; all where it is not given
 */
export function writeMeasured(
  text: string,
  result: MeasureResult,
  middleC: 3 | 4 | 5,
  what?: readonly Writable[],
): EditedMap {
  const written: Change[] = [];
  const notWritten: NotWritten[] = [];
  let current: Parsed = { text, document: parseDocument(text, { schema: 'core' }) };
  for (const change of changesOf(result, middleC, what)) {
    const next = applied(current, change);
    if ('document' in next) {
      current = next;
      written.push(change);
    } else notWritten.push({ path: change.path, text: change.text, why: reasons[next.refused] });
  }
  return { text: current.text, written, notWritten };
}

interface Parsed {
  readonly text: string;
  readonly document: ReturnType<typeof parseDocument>;
}

function applied(
  { text, document }: Parsed,
  { path, text: value, value: data }: Change,
): Parsed | { readonly refused: Refused | 'spoils' } {
  if (document.errors.length > 0) return { refused: 'shape' };
  const splice = spliceFor(document, text, path, value);
  if (typeof splice === 'string') return { refused: splice };
  const next = text.slice(0, splice.from) + splice.text + text.slice(splice.to);
  const read = parseDocument(next, { schema: 'core' });
  const expected = withValue(document.toJS(), path, data);
  const isAsMeant = read.errors.length === 0 && sameData(read.toJS(), expected);
  return isAsMeant ? { text: next, document: read } : { refused: 'spoils' };
}

/** Data with one value set, the rest as it was. */
function withValue(data: unknown, [key, ...rest]: readonly string[], value: unknown): unknown {
  if (key === undefined) return value;
  const own = typeof data === 'object' && data !== null ? (data as Readonly<Record<string, unknown>>) : {};
  return { ...own, [key]: withValue(own[key], rest, value) };
}

/** Whether data is the same, whatever the order of its keys. */
function sameData(a: unknown, b: unknown): boolean {
  return canonical(a) === canonical(b);
}

function canonical(data: unknown): string {
  return JSON.stringify(data, (_, value: unknown) =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
      : value,
  );
}
