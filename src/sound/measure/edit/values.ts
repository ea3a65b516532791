import { panValues, spellPitch } from '../keyslip.js';
import type { MeasuredArticulation, MeasuredStep, MeasureResult } from '../result.js';

/** What can be written into a map. */
export const writable = ['speaks-after', 'levels', 'reference-level', 'seat', 'width', 'pan'] as const;

export type Writable = (typeof writable)[number];

/** One value that a map gets. */
export interface Change {
  readonly path: readonly string[];
  readonly what: Writable;
  /** As plain data. */
  readonly value: unknown;
  /** As YAML on one line. */
  readonly text: string;
}

/** What a result has to say to a map, in the order of the keys. */
export function changesOf(
  result: MeasureResult,
  middleC: 3 | 4 | 5,
  what: readonly Writable[] = writable,
): readonly Change[] {
  const { referenceLevel, seat, width } = result;
  const number = (key: Writable, value: number | null, digits: number): readonly Change[] => {
    if (value === null) return [];
    const rounded = Number(value.toFixed(digits)) || 0;
    return [{ path: [key], what: key, value: rounded, text: `${rounded}` }];
  };
  const changes = [
    ...number('seat', seat, 2),
    ...number('width', width, 2),
    ...pan(result),
    ...number('reference-level', referenceLevel, 1),
    ...Object.entries(result.articulations).flatMap(([name, one]) => speaksAfter(name, one, middleC)),
    ...levels(result),
  ];
  return changes.filter((change) => what.includes(change.what));
}

/** A controller that moves the recording by less between its ends does not place it. Unit: dB. */
const leastMove = 1;

/** What controller 10 does against its value 64; nothing where an end, or 64, was not measured. */
function pan({ pan: measured }: MeasureResult): readonly Change[] {
  const middle = measured.find(({ value }) => value === 64)?.dB;
  if (middle === undefined) return [];
  let least = Number.NEGATIVE_INFINITY;
  const value = Object.fromEntries(
    Object.entries(panValues).flatMap(([name, at]) => {
      const found = measured.find((one) => one.value === at);
      if (!found) return [];
      const moved = found.dB - middle;
      // What a measurement scatters may not turn it round.
      least = Math.max(least, at < 64 ? Math.min(0, moved) : Math.max(0, moved));
      return [[name, Number(least.toFixed(1)) || 0]];
    }),
  );
  const { left, right } = value;
  if (left === undefined || right === undefined || right - left < leastMove) return [];
  return [{ path: ['pan'], what: 'pan', value, text: flow(value) }];
}

function speaksAfter(name: string, one: MeasuredArticulation, middleC: 3 | 4 | 5): readonly Change[] {
  if (one.speaksAfterMs === null) return [];
  const path = ['articulations', name, 'speaks-after'];
  const value = one.steps ? one.steps.map((step) => stepData(step, middleC)) : time(one.speaksAfterMs);
  return [{ path, what: 'speaks-after', value, text: flow(value) }];
}

function stepData({ when, isMs }: MeasuredStep, middleC: 3 | 4 | 5): unknown {
  const is = time(isMs);
  if (!when) return { is };
  if (!('pitch' in when)) return { when, is };
  const spelled = Object.entries(when.pitch).map(([bound, pitch]) => [bound, spellPitch(pitch, middleC)]);
  return { when: { pitch: Object.fromEntries(spelled) }, is };
}

/** A whole number of milliseconds; nothing speaks before its note-on. */
function time(ms: number): string {
  return `${Math.max(0, Math.round(ms))}ms`;
}

/** Marks rise: where the library's end is reached by several, the one nearest to mf has it. */
function levels({ marks }: MeasureResult): readonly Change[] {
  const middle = marks.findIndex(({ mark }) => mark === 'mf');
  return marks
    .filter(({ value }, index) => {
      const toMiddle = marks[index + Math.sign(middle - index)];
      return index === middle || toMiddle?.value !== value;
    })
    .map(({ mark, value }) => ({
      path: ['dynamics', 'levels', mark],
      what: 'levels',
      value,
      text: `${value}`,
    }));
}

/** Plain data as YAML on one line. Sharps need no quotes: a # begins a comment only behind a space. */
function flow(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(flow).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return String(value);
  const entries = Object.entries(value).map(([key, of]) => `${key}: ${flow(of)}`);
  return `{ ${entries.join(', ')} }`;
}
