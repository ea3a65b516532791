import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readMidi } from '../../../src/midi/read/index.js';
import { draws } from '../../support/draws.js';
import { eventsOf } from '../../support/events.js';
import { written } from '../write/written.js';
import { midiFile } from './arbitrary.js';
import { workedFormat0, workedFormat1 } from './bytes.js';

describe('the worked examples of Standard MIDI File 1.0', () => {
  it('format 0', () => {
    const { value, diagnostics } = readMidi(workedFormat0, 'a.mid');
    expect(diagnostics).toEqual([]);
    if (!value) throw new Error('not read');
    expect([value.format, value.division, value.tracks.length]).toEqual([0, { kind: 'ppq', ppq: 96 }, 1]);
    const [track] = value.tracks;
    // The table beside the example: "Start of track … End of track", times in ticks from the start.
    expect([...(track?.columns.ticks ?? [])]).toEqual([
      0, 0, 0, 0, 0, 0, 0, 96, 192, 384, 384, 384, 384, 384,
    ]);
    expect(eventsOf(track).map(({ event: { deltaTime: _, ...event } }) => event)).toEqual([
      { meta: true, type: 'timeSignature', numerator: 4, denominator: 4, metronome: 24, thirtyseconds: 8 },
      { meta: true, type: 'setTempo', microsecondsPerBeat: 500_000 },
      { type: 'programChange', channel: 0, programNumber: 5 },
      { type: 'programChange', channel: 1, programNumber: 46 },
      { type: 'programChange', channel: 2, programNumber: 70 },
      { type: 'noteOn', channel: 2, noteNumber: 48, velocity: 96 },
      { type: 'noteOn', channel: 2, noteNumber: 60, velocity: 96, running: true },
      { type: 'noteOn', channel: 1, noteNumber: 67, velocity: 64 },
      { type: 'noteOn', channel: 0, noteNumber: 76, velocity: 32 },
      { type: 'noteOff', channel: 2, noteNumber: 48, velocity: 64 },
      { type: 'noteOff', channel: 2, noteNumber: 60, velocity: 64, running: true },
      { type: 'noteOff', channel: 1, noteNumber: 67, velocity: 64 },
      { type: 'noteOff', channel: 0, noteNumber: 76, velocity: 64 },
      { meta: true, type: 'endOfTrack' },
    ]);
  });

  it('format 1', () => {
    const { value, diagnostics } = readMidi(workedFormat1, 'a.mid');
    expect(diagnostics).toEqual([]);
    expect([value?.format, value?.division]).toEqual([1, { kind: 'ppq', ppq: 96 }]);
    expect(value?.tracks.map(({ number, columns }) => [number, ...columns.ticks])).toEqual([
      [1, 0, 0, 384],
      [2, 0, 192, 384, 384],
      [3, 0, 96, 384, 384],
      [4, 0, 0, 0, 384, 384, 384],
    ]);
    expect(
      eventsOf(value?.tracks[3])
        .slice(1, 5)
        .map(({ event }) => event),
    ).toMatchObject([
      { type: 'noteOn', channel: 2, noteNumber: 48, velocity: 96 },
      { type: 'noteOn', channel: 2, noteNumber: 60, velocity: 96 },
      { type: 'noteOff', channel: 2, noteNumber: 48, velocity: 0, byte9: true },
      { type: 'noteOff', channel: 2, noteNumber: 60, velocity: 0, byte9: true },
    ]);
  });
});

describe('any bytes at all', () => {
  /** Reads, and holds what must hold of every outcome. */
  function judge(file: Uint8Array): void {
    const { value, diagnostics } = readMidi(file, 'a.mid');
    const hasErrors = diagnostics.some(({ severity }) => severity === 'error');
    expect(hasErrors).toBe(value === undefined);
    for (const { place } of diagnostics)
      if (place.kind === 'bytes') expect(place.offset).toBeLessThanOrEqual(file.length);
    if (value) expect(written(value)).toEqual(file);
  }

  it('never throw', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (noise) => {
        judge(noise);
        judge(Uint8Array.from([...workedFormat1.subarray(0, 22), ...noise]));
      }),
      { seed: 100, numRuns: draws(2000) },
    );
  });

  it('that were once a file never throw', () => {
    const change = fc.record({
      at: fc.double({ min: 0, max: 1, noNaN: true }),
      byte: fc.nat(255),
      kind: fc.nat(3),
    });
    fc.assert(
      fc.property(midiFile, fc.array(change, { minLength: 1, maxLength: 6 }), (file, changes) => {
        const mutated = Array.from(file);
        for (const { at, byte, kind } of changes) {
          const index = Math.floor(at * mutated.length);
          if (kind === 0) mutated.splice(index, 1);
          else if (kind === 1) mutated.splice(index, 0, byte);
          else if (kind === 2) mutated[index] = byte;
          else mutated.length = Math.max(1, index);
        }
        judge(Uint8Array.from(mutated));
      }),
      { seed: 101, numRuns: draws(2000) },
    );
  });

  it('may be a view into a larger buffer', () => {
    const buffer = Buffer.concat([Buffer.from('before'), workedFormat0, Buffer.from('behind')]);
    const { value, diagnostics } = readMidi(buffer.subarray(6, 6 + workedFormat0.length), 'a.mid');
    expect(diagnostics).toEqual([]);
    expect(value && Buffer.from(written(value))).toEqual(Buffer.from(workedFormat0));
  });
});
