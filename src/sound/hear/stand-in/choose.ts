import type { HearArticulation, StandIn } from '../types.js';
import { rows } from './table.js';

/**
 * What an articulation is heard by: what its map says, else what its meanings say together (a later one adds what the
 * earlier ones leave open); undefined where nothing stands in for it.
 */
export function standInOf(
  { means, standIn }: HearArticulation,
  family: string | undefined,
): StandIn | undefined {
  if (standIn) return standIn;
  const found = means.flatMap((meaning) => rowOf(meaning, family) ?? []);
  if (found.length === 0) return undefined;
  return Object.assign({}, ...found.reverse()) as StandIn;
}

function rowOf(meaning: string, family: string | undefined): StandIn | undefined {
  const name = lastPart(meaning);
  return rows.find(
    (row) => row.means.includes(name) && (!row.families || row.families.includes(family ?? 'other')),
  )?.standIn;
}

/** `staccatos-and-shorts/spiccato` is `spiccato`; case and runs of white space do not matter. */
function lastPart(meaning: string): string {
  return (meaning.split('/').at(-1) ?? meaning).trim().toLowerCase().replace(/\s+/gu, ' ');
}
