import type { SwitchMessage } from '../model/map.js';
import type { MidiEvent } from '../model/song.js';

/** The events that a controller or program message becomes; bank select goes before the program. */
export function messageEvents(message: SwitchMessage, channel: number): readonly MidiEvent[] {
  if (message.kind === 'controller') return [controller(channel, message.controller, message.value)];
  if (message.kind !== 'program') return [];
  const [most, least] = message.bank ?? [];
  return [
    ...(most === undefined ? [] : [controller(channel, 0, most)]),
    ...(least === undefined ? [] : [controller(channel, 32, least)]),
    { deltaTime: 0, channel, type: 'programChange', programNumber: message.program },
  ];
}

export function keyOn(channel: number, key: number, velocity: number): MidiEvent {
  return { deltaTime: 0, channel, type: 'noteOn', noteNumber: key, velocity };
}

/** Releases of switch keys are note-offs (0x80) with velocity 64, the value of a device that measures none. */
export function keyOff(channel: number, key: number): MidiEvent {
  return { deltaTime: 0, channel, type: 'noteOff', noteNumber: key, velocity: 64 };
}

function controller(channel: number, controllerType: number, value: number): MidiEvent {
  return { deltaTime: 0, channel, type: 'controller', controllerType, value };
}
