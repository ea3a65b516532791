import type { Meaning } from './types.js';

/** What several marks on one note mean together: each aspect as the last mark has it that speaks of it. */
export function combineMeanings(meanings: readonly Meaning[]): Meaning {
  return meanings.reduce<Meaning>((all, one) => {
    const { muteAmount, ...rest } = all;
    // An amount belongs to its mute.
    return { ...rest, ...(one.mute === undefined && muteAmount !== undefined ? { muteAmount } : {}), ...one };
  }, {});
}
