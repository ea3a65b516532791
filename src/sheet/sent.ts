import { type ArticulationMap, formatMessageShort } from '../map/index.js';

/** What an articulation sends, in a few words: "C-2", "CC 20 = 64 and D-2", "channel 7". */
export function sentBy(map: ArticulationMap, articulation: string): string {
  const messages = map.articulations.get(articulation)?.switch ?? [];
  return messages.map((message) => formatMessageShort(message, map.middleC)).join(' and ');
}
