import { type Events, firstData, isSystemOn, kindOf } from '../../midi/index.js';

/** What in music may change an aspect: a program change, a controller, or General MIDI System On. */
export type Writer = 'program' | 'system on' | `controller ${number}`;

/** What an event is, as a writer to aspects; undefined for most. */
export function writerOf(events: Events, event: number): Writer | undefined {
  const kind = kindOf(events, event);
  if (kind === 0xb0) return `controller ${firstData(events, event)}`;
  if (kind === 0xc0) return 'program';
  return isSystemOn(events, event) ? 'system on' : undefined;
}
