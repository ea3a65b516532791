import fc from 'fast-check';
import { type MidiEvent, parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { compile } from '../../src/compile/index.js';
import { mapOfMethod, methods, randomLine } from '../support/arbitrary.js';
import { draws } from '../support/draws.js';
import { bytesOf, controllerAt, songOf, tempoAt, textAt, trackOf } from '../support/song.js';

/** Events with absolute ticks, as text; running status aside. */
function contents(bytes: Uint8Array, track: number, home?: number): string[] {
  let tick = 0;
  return (parseMidi(bytes).tracks[track] ?? []).map((event) => {
    tick += event.deltaTime;
    const { deltaTime: _, running: __, ...rest } = event as MidiEvent & { running?: boolean };
    const moved =
      home !== undefined && (rest.type === 'noteOn' || rest.type === 'noteOff')
        ? { ...rest, channel: home }
        : rest;
    return `${tick} ${JSON.stringify(moved)}`;
  });
}

/** What remains of a list when another is taken out of it in order; undefined where that is not possible. */
function without(longer: readonly string[], shorter: readonly string[]): readonly string[] | undefined {
  const rest: string[] = [];
  let next = 0;
  for (const item of longer) {
    if (item === shorter[next]) next += 1;
    else rest.push(item);
  }
  return next === shorter.length ? rest : undefined;
}

const others = [
  tempoAt(0, 90),
  textAt(0, 'a text of bytes \x80\xff', 'text'),
  textAt(100, 'la', 'lyrics'),
  controllerAt(33, 1, 50),
  controllerAt(480, 64, 127),
  { tick: 200, event: { type: 'sysEx' as const, data: [0x7e, 0x7f, 9, 1, 0xf7] } },
  { tick: 200, event: { type: 'endSysEx' as const, data: [1, 2, 3] } },
  { tick: 300, event: { type: 'unknownMeta' as const, meta: true, metatypeByte: 0x60, data: [1, 2] } },
  { tick: 300, event: { type: 'pitchBend' as const, channel: 0, value: -77 } },
];

describe('nothing is lost', () => {
  for (const [index, method] of methods.entries())
    it(`what was inserted taken out, the input remains, event by event: ${method}`, () => {
      fc.assert(
        fc.property(mapOfMethod(method), randomLine, (map, line) => {
          const tracks = [
            trackOf([], others, 'Conductor'),
            trackOf(line, others, 'Line'),
            trackOf(line, [], 'Untouched'),
          ];
          const { value } = compile(songOf(tracks), [
            { part: { track: 2, trackName: 'Line', channel: 0 }, map },
          ]);
          if (!value) throw new Error('nothing compiled');
          const input = bytesOf(tracks);
          for (const track of [0, 2]) expect(contents(value.bytes, track)).toEqual(contents(input, track));
          const rest = without(contents(value.bytes, 1, 0), contents(input, 1, 0));
          expect(rest).toBeDefined();
          const inserted = value.parts[0]?.switched.insertions.length;
          expect(rest?.length).toBe(inserted);
        }),
        { seed: 500 + index, numRuns: draws(30) },
      );
    });
});
