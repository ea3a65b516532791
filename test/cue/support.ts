import { type CompiledCue, compileCue } from '../../src/cue/index.js';
import type { Diagnostic } from '../../src/diagnostics/diagnostic.js';
import type { ArticulationMap } from '../../src/map/types.js';
import { readMidi } from '../../src/midi/read/index.js';
import type { Song, Track } from '../../src/midi/song.js';
import { cueOf } from '../support/cue.js';
import { eventsOf } from '../support/events.js';

/** A cue's result as it is read back from its bytes. */
export interface Result {
  readonly compiled: CompiledCue | undefined;
  readonly song: Song | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

/** Compiles a cue from the YAML of its parts (and what stands before them, with `head`). */
export function compiledCue(
  parts: string,
  song: Song,
  maps: Readonly<Record<string, ArticulationMap>>,
  head = '',
): Result {
  const { value, diagnostics } = compileCue(cueOf(`${head}parts:\n${parts}`), {
    song,
    maps: new Map(Object.entries(maps)),
  });
  return { compiled: value, song: value && readMidi(value.bytes, 'out.mid').value, diagnostics };
}

/** The notes of a track that a player hears, switches (below `from`) left out: tick, end, pitch, velocity. */
export function notesOf(track: Track | undefined, from = 24): readonly (readonly number[])[] {
  const open = new Map<number, number[][]>();
  const notes: number[][] = [];
  for (const { tick, event } of eventsOf(track))
    if (event.type === 'noteOn' && event.noteNumber >= from) {
      const note = [tick, -1, event.noteNumber, event.velocity];
      notes.push(note);
      open.set(event.noteNumber, [...(open.get(event.noteNumber) ?? []), note]);
    } else if (event.type === 'noteOff') {
      const [first, ...rest] = open.get(event.noteNumber) ?? [];
      if (first) first[1] = tick;
      open.set(event.noteNumber, rest);
    }
  return notes;
}

/** The events of a controller: tick and value. */
export function controllerOf(
  track: Track | undefined,
  controller: number,
): readonly (readonly [number, number])[] {
  return eventsOf(track).flatMap(({ tick, event }) =>
    event.type === 'controller' && event.controllerType === controller ? [[tick, event.value] as const] : [],
  );
}
