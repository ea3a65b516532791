import type { ArticulationMap, SwitchMessage } from './types.js';

/**
 * The slot that a switch message occupies: all notes share one, each controller number has its own, program and
 * bank share one, the channel has one; a group has one of its own.
 */
export function slotOf(message: SwitchMessage): string {
  if (message.kind === 'channel') return 'channel';
  if (message.group !== undefined) return `group ${message.group}`;
  return message.kind === 'controller' ? `controller ${message.controller}` : message.kind;
}

/** The channel (0–15) on which an articulation's notes go out. */
export function channelFor(map: ArticulationMap, articulation: string, own: number): number {
  for (const message of map.articulations.get(articulation)?.switch ?? [])
    if (message.kind === 'channel') return message.channel;
  return own;
}
