import tonejs from '@tonejs/midi';
import fc from 'fast-check';
import { parseMidi, writeMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { type CompiledPart, compile } from '../../../src/compile/index.js';
import type { ArticulationMap, SwitchMessage } from '../../../src/map/index.js';
import { mapOfMethod, methods, randomLine } from '../../support/arbitrary.js';
import { decisionsIn } from '../../support/decided.js';
import { draws } from '../../support/draws.js';
import { songOf, type TestNote, tempoAt, trackOf } from '../../support/song.js';

const { Midi } = tonejs;

/** What an outside reader finds in force at a melody note, written as the switches of articulations are. */
interface Reading {
  latched(tick: number, keys: readonly number[]): number | undefined;
  held(tick: number, keys: readonly number[]): readonly number[];
  controller(tick: number, number: number): number | undefined;
}

/**
 * The bytes without program changes: @tonejs/midi parts a track where its program changes, which cuts the notes in two
 * that sound there.
 */
function withoutPrograms(bytes: Uint8Array): number[] {
  const data = parseMidi(bytes);
  const tracks = data.tracks.map((track) => {
    let waiting = 0;
    return track.flatMap((event) => {
      const deltaTime = event.deltaTime + waiting;
      waiting = event.type === 'programChange' ? deltaTime : 0;
      return event.type === 'programChange' ? [] : [{ ...event, deltaTime }];
    });
  });
  return writeMidi({ header: data.header, tracks });
}

function reading(bytes: Uint8Array): Reading {
  const tracks = new Midi(withoutPrograms(bytes)).tracks;
  const notes = tracks.flatMap((track) => track.notes).sort((a, b) => a.ticks - b.ticks);
  return {
    latched: (tick, keys) =>
      notes.filter((note) => note.ticks <= tick && keys.includes(note.midi)).at(-1)?.midi,
    held: (tick, keys) =>
      notes
        .filter(
          (note) => keys.includes(note.midi) && note.ticks <= tick && note.ticks + note.durationTicks > tick,
        )
        .map((note) => note.midi)
        .sort((a, b) => a - b),
    controller: (tick, number) =>
      tracks
        .flatMap((track) => track.controlChanges[number] ?? [])
        .filter(({ ticks }) => ticks <= tick)
        .sort((a, b) => a.ticks - b.ticks)
        .map(({ value }) => Math.round(value * 127))
        .at(-1),
  };
}

/** Programs and banks in force, by the parser's own event list: @tonejs/midi keeps only one program a track. */
function programAt(bytes: Uint8Array, tick: number): readonly (number | undefined)[] {
  let now = 0;
  let bank: readonly [number | undefined, number | undefined] = [undefined, undefined];
  let inForce: readonly (number | undefined)[] = [];
  for (const event of parseMidi(bytes).tracks[0] ?? []) {
    now += event.deltaTime;
    if (now > tick) break;
    if (event.type === 'controller' && event.controllerType === 0) bank = [event.value, bank[1]];
    if (event.type === 'controller' && event.controllerType === 32) bank = [bank[0], event.value];
    if (event.type === 'programChange') inForce = [event.programNumber, ...bank];
  }
  return inForce;
}

function check(bytes: Uint8Array, { map, decided }: CompiledPart): void {
  const decisions = decisionsIn({ decided });
  const read = reading(bytes);
  for (const { note, articulation } of decisions) {
    const first = decisions.find((other) => other.note.onset === note.onset)?.note.tick ?? note.tick;
    const wanted = map.articulations.get(articulation)?.switch ?? [];
    if (map.switching.notes === 'momentary')
      expect(read.held(note.tick, keysOf(map, undefined))).toEqual(
        wanted.flatMap((message) => (message.kind === 'note' ? [message.key] : [])),
      );
    for (const message of wanted) checkMessage(bytes, read, map, message, first, note);
  }
}

function keysOf(map: ArticulationMap, group: string | undefined): readonly number[] {
  const messages = [...map.articulations.values()].flatMap((articulation) => articulation.switch);
  return messages.flatMap((message) =>
    message.kind === 'note' && message.aspect === group ? [message.key] : [],
  );
}

function checkMessage(
  bytes: Uint8Array,
  read: Reading,
  map: ArticulationMap,
  message: SwitchMessage,
  first: number,
  note: { readonly tick: number; readonly pitch: number },
): void {
  switch (message.kind) {
    case 'note':
      if (map.switching.notes === 'latching')
        expect(read.latched(first, keysOf(map, message.aspect))).toBe(message.key);
      break;
    case 'controller':
      expect(read.controller(first, message.controller)).toBe(message.value);
      break;
    case 'program':
      expect(programAt(bytes, first)).toEqual([message.program, ...(message.bank ?? [undefined, undefined])]);
      break;
    case 'channel': {
      const sounding = new Midi(bytes).tracks.filter((track) => track.channel === message.channel);
      const strikes = sounding.flatMap((track) => track.notes);
      expect(strikes.some(({ ticks, midi }) => ticks === note.tick && midi === note.pitch)).toBe(true);
    }
  }
}

/** A momentary key is let go with the last note; a note without length has no moment at which an outside reader finds it held. */
const withLength = (notes: readonly TestNote[]) =>
  notes.map((note) => ({ ...note, end: Math.max(note.end, note.tick + 1) }));

describe('the switch in force at each note, as an outside reader finds it', () => {
  for (const [index, method] of methods.entries())
    it(`is the decided one: ${method}`, () => {
      fc.assert(
        fc.property(mapOfMethod(method), randomLine, fc.integer({ min: 40, max: 240 }), (map, line, bpm) => {
          const song = songOf([trackOf(withLength(line), [tempoAt(0, bpm)])], { format: 0 });
          const { value, diagnostics } = compile(song, [
            { part: { track: 1, trackName: '', channel: 0 }, map },
          ]);
          expect(diagnostics.filter(({ severity }) => severity === 'error')).toEqual([]);
          const [part] = value?.parts ?? [];
          if (!value || !part) throw new Error('nothing compiled');
          check(value.bytes, part);
        }),
        { seed: 300 + index, numRuns: draws(60) },
      );
    });
});
