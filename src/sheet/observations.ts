import { type InspectionRemark, inspect, instrumentOf, type Music } from '../music/index.js';
import type { Remark, SheetPart } from './types.js';

/** What every inspection has to remark on the music of a sheet, each with its reason, in order of bars. */
export function observationsOn(
  music: Omit<Music, 'described'>,
  parts: readonly SheetPart[],
): readonly Remark[] {
  // The part's name tells the instrument, or else what its map says it is.
  const described = parts.map(({ name, instrument, range }) => ({
    name: instrumentOf(name) === undefined ? instrument : name,
    range,
  }));
  return inspect({ ...music, described })
    .flatMap((one) => one.remarks().map(observation))
    .sort((a, b) => (a.bar ?? 0) - (b.bar ?? 0));
}

function observation({ says, part, from, to, tick }: InspectionRemark): Remark {
  return {
    kind: 'observation',
    text: says,
    ...(part === undefined ? {} : { part }),
    ...(tick === undefined ? {} : { tick }),
    ...inBars(from, to),
  };
}

function inBars(
  from: number | null | undefined,
  to: number | null | undefined,
): Pick<Remark, 'bar' | 'toBar'> {
  if (from === null || from === undefined) return {};
  return to === null || to === undefined || to === from ? { bar: from } : { bar: from, toBar: to };
}
