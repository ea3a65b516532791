import { type MidiEvent, parseMidi } from 'midi-file';
import { compile } from '../../src/compile/index.js';
import type { ArticulationMap } from '../../src/map/types.js';
import { mapOf } from './map.js';
import { songOf, type TestNote, type Timed, trackOf } from './song.js';

/** An event with its absolute tick. */
export interface Event {
  readonly tick: number;
  readonly event: MidiEvent;
}

/** The compiled events of a one-track song, as `midi-file` reads them. */
export function compiled(
  map: ArticulationMap,
  notes: readonly TestNote[],
  others: readonly Timed[] = [],
): readonly Event[] {
  const song = songOf([trackOf(notes, others)]);
  const { value, diagnostics } = compile(song, [{ part: { track: 1, trackName: '', channel: 0 }, map }]);
  if (!value) throw new Error(diagnostics.map(({ message }) => message).join('\n'));
  let tick = 0;
  return (parseMidi(value.bytes).tracks[0] ?? []).map((event) => {
    tick += event.deltaTime;
    return { tick, event };
  });
}

/** Events in short: `0 on 24`, `20 off 24`, `0 cc 20=8`, `0 program 48`. */
export function short(events: readonly Event[]): readonly string[] {
  return events.flatMap(({ tick, event }) => {
    if (event.type === 'noteOn') return [`${tick} on ${event.noteNumber}`];
    if (event.type === 'noteOff') return [`${tick} off ${event.noteNumber}`];
    if (event.type === 'controller') return [`${tick} cc ${event.controllerType}=${event.value}`];
    return event.type === 'programChange' ? [`${tick} program ${event.programNumber}`] : [];
  });
}

/** A map of a short and a long articulation, by the held time. */
export const two = (switches: string, more = '') =>
  mapOf(`${more}
articulations:
${switches}
rules:
  - when: {held: {below: 200ms}}
    use: short
  - use: long
`);
