import { sentAspectOf, takenBy, type Writer, writersTo } from './switch-messages/index.js';
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

/** The aspects of a map as they are switched, by what in the music changes them; each in the order of the map. */
export function aspectsByWriter(map: ArticulationMap): ReadonlyMap<Writer, readonly string[]> {
  const aspects = new Map<Writer, Set<string>>();
  for (const message of messagesOf(map))
    for (const writer of writersTo(message, map.switching.notes === 'momentary'))
      aspects.set(writer, (aspects.get(writer) ?? new Set()).add(sentAspectOf(message, map.switching)));
  return new Map([...aspects].map(([writer, of]) => [writer, [...of]]));
}

function messagesOf({ articulations }: ArticulationMap) {
  return [...articulations.values()].flatMap((articulation) => articulation.switch);
}

/** Whether a map has a sound for a mark, by the mark's canonical name: an articulation of its name or meaning, or a rule for it. */
export function hasSoundFor({ articulations, rules }: ArticulationMap, mark: string): boolean {
  return (
    articulations.has(mark) ||
    rules.some(({ marked }) => marked?.includes(mark)) ||
    [...articulations.values()].some(({ means }) => means.includes(mark))
  );
}
