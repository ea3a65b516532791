import type { PlayedNote } from '../play/index.js';

/** A note of a MIDI track. */
export interface Key {
  readonly tick: number;
  readonly endTick: number;
  readonly pitch: number;
  readonly velocity: number;
}

/**
 * The keys of a part, in order of onset. A channel has each key once: voices that strike one together are one note, as
 * long as the longest and as loud as the loudest; a key struck again while it sounds is let go first.
 */
export function keysOf(notes: readonly PlayedNote[]): readonly Key[] {
  const keys: Key[] = [];
  const sounding = new Map<number, number>();
  for (const { tick, endTick, pitch, velocity } of notes) {
    const index = sounding.get(pitch);
    const before = index === undefined ? undefined : keys[index];
    if (index !== undefined && before?.tick === tick) {
      keys[index] = {
        ...before,
        endTick: Math.max(before.endTick, endTick),
        velocity: Math.max(before.velocity, velocity),
      };
      continue;
    }
    if (index !== undefined && before && before.endTick > tick) keys[index] = { ...before, endTick: tick };
    sounding.set(pitch, keys.length);
    keys.push({ tick, endTick, pitch, velocity });
  }
  return keys;
}
