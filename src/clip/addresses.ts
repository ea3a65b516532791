import type { Address } from './packets.js';

/**
 * The first free address for a part: its own channel in the first group where that is free, else any; a 257th part has
 * none, and shares the last, which the writer reports.
 *
 * @param taken addresses that were given before; this one is added
 */
export function freeAddress(channel: number, taken: Set<string>): Address {
  const own = Array.from({ length: 16 }, (_, group) => ({ group, channel }));
  const any = Array.from({ length: 256 }, (_, index) => ({ group: index >> 4, channel: index & 15 }));
  const key = (at: Address) => `${at.group} ${at.channel}`;
  const found = [...own, ...any].find((at) => !taken.has(key(at))) ?? { group: 15, channel: 15 };
  taken.add(key(found));
  return found;
}
