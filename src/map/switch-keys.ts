import { isHeldKey, sentAspectOf, takenBy } from './switch-messages/index.js';
import type { ArticulationMap } from './types.js';

/** The switch keys of a map, each with the articulations that it belongs to. */
export function switchKeys(map: ArticulationMap): ReadonlyMap<number, readonly string[]> {
  const keys = new Map<number, string[]>();
  for (const { name, switch: messages } of map.articulations.values())
    for (const message of messages) {
      const { key } = takenBy(message);
      if (key !== undefined) keys.set(key, [...(keys.get(key) ?? []), name]);
    }
  return keys;
}

/** The switch keys that work only while they are held, with the aspects that they switch. */
export function heldKeys({
  articulations,
  switching,
}: ArticulationMap): ReadonlyMap<number, readonly string[]> {
  const held = new Map<number, string[]>();
  for (const { switch: messages } of articulations.values())
    for (const message of messages) {
      if (message.kind !== 'note' || !isHeldKey(message, switching)) continue;
      const aspect = sentAspectOf(message, switching);
      const aspects = held.get(message.key) ?? [];
      if (!aspects.includes(aspect)) held.set(message.key, [...aspects, aspect]);
    }
  return held;
}

/** Groups notes by pitch; each group in the order of the line. */
export function byPitch<N extends { readonly pitch: number }>(
  notes: readonly N[],
): readonly (readonly N[])[] {
  const groups = new Map<number, N[]>();
  for (const note of notes) {
    const group = groups.get(note.pitch);
    if (group) group.push(note);
    else groups.set(note.pitch, [note]);
  }
  return [...groups.values()];
}

/** `once`, or how many times. */
export function times(count: number): string {
  return count === 1 ? 'once' : `${count} times, here first`;
}
