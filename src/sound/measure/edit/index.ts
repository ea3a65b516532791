// Puts measured values into the text of a map; every other character stays.
import { edited, type NotEdited, openYaml } from '../keyslip.js';
import type { MeasureResult } from '../result.js';
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

const reasons: Readonly<Record<NotEdited, string>> = {
  'not-there': 'this file does not have the place: it may stand in the map that it is based on',
  alias: 'an alias stands there, and what it names is used elsewhere too',
  shape: 'what stands there is not of the shape that was expected',
  spoils: 'putting it there would change something else in the file',
};

/** A new key stands behind what names the instrument, where it can. */
const neighbours = ['reference-level', 'pan', 'width', 'seat', 'range'];

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
  let current = openYaml(text);
  for (const change of changesOf(result, middleC, what)) {
    const next = edited(current, change, neighbours);
    if ('document' in next) {
      current = next;
      written.push(change);
    } else notWritten.push({ path: change.path, text: change.text, why: reasons[next.refused] });
  }
  return { text: current.text, written, notWritten };
}
