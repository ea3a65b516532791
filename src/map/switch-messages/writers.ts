import { isSystemOn, type MidiEvent } from '../../midi/index.js';

/** What in music may change an aspect: a program change, a controller, or General MIDI System On. */
export type Writer = 'program' | 'system on' | `controller ${number}`;

/** What an event is, as a writer to aspects; undefined for most. */
export function writerOf(event: MidiEvent): Writer | undefined {
  if (event.type === 'controller') return `controller ${event.controllerType}`;
  if (event.type === 'programChange') return 'program';
  return isSystemOn(event) ? 'system on' : undefined;
}
