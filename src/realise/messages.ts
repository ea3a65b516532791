import type { SwitchMessage } from '../model/map.js';
import type { FreeEvent } from './insertion.js';

/** The events that a controller or program message becomes; bank select goes before the program. */
export function messageEvents(message: SwitchMessage, channel: number): readonly FreeEvent[] {
  if (message.kind === 'controller') return [controller(channel, message.controller, message.value)];
  if (message.kind !== 'program') return [];
  const [most, least] = message.bank ?? [];
  return [
    ...(most === undefined ? [] : [controller(channel, 0, most)]),
    ...(least === undefined ? [] : [controller(channel, 32, least)]),
    { type: 'programChange', channel, programNumber: message.program },
  ];
}

export function keyOn(channel: number, key: number, velocity: number): FreeEvent {
  return { type: 'noteOn', channel, noteNumber: key, velocity };
}

/** Releases of switch keys are note-offs (0x80) with velocity 64, the value of a device that measures none. */
export function keyOff(channel: number, key: number): FreeEvent {
  return { type: 'noteOff', channel, noteNumber: key, velocity: 64 };
}

function controller(channel: number, controllerType: number, value: number): FreeEvent {
  return { type: 'controller', channel, controllerType, value };
}
