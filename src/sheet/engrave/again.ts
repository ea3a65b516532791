import type { Engraver } from './engraver.js';
import type { EngravedSystem } from './system.js';

/**
 * For sheets that are drawn again and again: each call gives an engraver for the next sheet, which has what the sheet
 * before was engraved from, so that only what is notated otherwise is engraved again.
 */
export function engraversFor(engrave: Engraver): () => Engraver {
  let now = new Map<string, readonly EngravedSystem[]>();
  return () => {
    const before = now;
    const known = new Map<string, readonly EngravedSystem[]>();
    now = known;
    return (mei, from, to) => {
      const key = `${from} ${to} ${mei}`;
      const systems = before.get(key) ?? known.get(key) ?? engrave(mei, from, to);
      known.set(key, systems);
      return systems;
    };
  };
}
