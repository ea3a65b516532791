import { largest } from '../largest.js';
import type { Jump, Metre, ScoreMeasure } from '../model.js';
import type { MeasureFacts } from './state.js';

/** The bars of all parts together: each as long as its longest part, with what any part says of repeats. */
export function mergeMeasures(
  parts: readonly (readonly MeasureFacts[])[],
  ppq: number,
): readonly ScoreMeasure[] {
  const count = parts.reduce((most, { length }) => Math.max(most, length), 0);
  const merged = Array.from({ length: count }, (_, index) => {
    const here = parts.flatMap((part) => part[index] ?? []);
    return mergeOne(here, ppq);
  });
  return withEndings(merged, endingsOf(parts, count));
}

function mergeOne(here: readonly MeasureFacts[], ppq: number): ScoreMeasure {
  const metre = here.find((one) => one.metre)?.metre ?? null;
  const content = largest(
    here.map((one) => one.content),
    0,
  );
  return {
    number: here[0]?.number ?? '',
    length: content > 0 ? content : barTicks(metre, ppq),
    metre,
    repeatFrom: here.some((one) => one.repeatFrom),
    repeatTo: here.find((one) => one.repeatTo)?.repeatTo ?? null,
    ending: null,
    jumps: jumpsOf(here),
  };
}

/** A bar without anything in it is as long as its metre; 4/4 where there is none. */
export function barTicks(metre: Metre | null, ppq: number): number {
  return metre ? Math.round((4 * ppq * metre.beats) / metre.beatType) : 4 * ppq;
}

/** What several parts say alike is one jump. */
function jumpsOf(here: readonly MeasureFacts[]): readonly Jump[] {
  const kinds = new Map<string, Jump>();
  for (const jump of here.flatMap(({ jumps }) => jumps)) {
    const known = kinds.get(jump.kind);
    if (!known || ('name' in known && known.name === '')) kinds.set(jump.kind, jump);
  }
  return [...kinds.values()];
}

/** The passes of the ending over each bar, from the first part that has endings. */
function endingsOf(
  parts: readonly (readonly MeasureFacts[])[],
  count: number,
): readonly (readonly number[] | null)[] {
  const part = parts.find((one) => one.some(({ endingStart }) => endingStart)) ?? [];
  let open: readonly number[] | null = null;
  return Array.from({ length: count }, (_, index) => {
    const facts = part[index];
    if (facts?.endingStart) open = facts.endingStart;
    const here = open;
    if (facts?.endingStops || facts?.repeatTo) open = null;
    return here;
  });
}

function withEndings(
  measures: readonly ScoreMeasure[],
  endings: readonly (readonly number[] | null)[],
): readonly ScoreMeasure[] {
  return measures.map((measure, index) => ({ ...measure, ending: endings[index] ?? null }));
}
