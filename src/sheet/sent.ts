import { spellPitch } from '../diagnostics/index.js';
import { type ArticulationMap, formatMessageShort } from '../map/index.js';

/** What an articulation sends, in a few words: "C-2", "CC 20 = 64 and D-2", "channel 7", "on D2", "velocities 1 to 40". */
export function sentBy(map: ArticulationMap, articulation: string): string {
  const { switch: messages = [], key, velocity } = map.articulations.get(articulation) ?? {};
  return [
    ...messages.map((message) => formatMessageShort(message, map.middleC)),
    ...(key === undefined ? [] : [`on ${spellPitch(key, map.middleC)}`]),
    ...(velocity ? [`velocities ${velocity.into.join(' to ')}`] : []),
  ].join(' and ');
}
