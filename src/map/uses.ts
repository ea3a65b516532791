import { slotOf, takenBy, type Writer, writersTo } from './switch-messages/index.js';
import type { ArticulationMap } from './types.js';

/** The channel (0–15) on which an articulation's notes go out. */
export function channelFor(map: ArticulationMap, articulation: string, own: number): number {
  for (const message of map.articulations.get(articulation)?.switch ?? []) {
    const { channel } = takenBy(message);
    if (channel !== undefined) return channel;
  }
  return own;
}

/** Whether a map sends notes to channels of its own. */
export function hasRoutes(map: ArticulationMap): boolean {
  return messagesOf(map).some((message) => takenBy(message).channel !== undefined);
}

/** Whether a map switches with a controller. */
export function switchesWith(map: ArticulationMap, controller: number): boolean {
  return messagesOf(map).some((message) => takenBy(message).controller === controller);
}

/** The slots of a map, by what in the music changes them; each in the order of the map. */
export function slotsByWriter(map: ArticulationMap): ReadonlyMap<Writer, readonly string[]> {
  const slots = new Map<Writer, Set<string>>();
  for (const message of messagesOf(map))
    for (const writer of writersTo(message, map.switching.notes === 'momentary'))
      slots.set(writer, (slots.get(writer) ?? new Set()).add(slotOf(message)));
  return new Map([...slots].map(([writer, of]) => [writer, [...of]]));
}

function messagesOf({ articulations }: ArticulationMap) {
  return [...articulations.values()].flatMap((articulation) => articulation.switch);
}
