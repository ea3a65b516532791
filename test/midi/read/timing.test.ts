import { describe, expect, it } from 'vitest';
import { readMidi } from '../../../src/midi/read/index.js';
import { bytes, endOfTrack, midi } from './bytes.js';

function warnings(...bodies: string[]): unknown[] {
  const { value, diagnostics } = readMidi(
    midi(bodies.map((body) => [...bytes(body), ...endOfTrack])),
    'a.mid',
  );
  expect(value).toBeDefined();
  return diagnostics.map(({ code, severity, place }) => [
    code,
    severity,
    place.kind === 'bytes' && place.offset,
  ]);
}

describe('tempos and time signatures that mean nothing', () => {
  it('are warned of at their type byte', () => {
    expect(warnings('00 FF 51 03 00 00 00')).toEqual([['midi-tempo', 'warning', 24]]);
    expect(warnings('00 FF 51 02 07 A1')).toEqual([['midi-tempo', 'warning', 24]]);
    expect(warnings('00 FF 58 04 00 02 18 08')).toEqual([['midi-tempo', 'warning', 24]]);
    expect(warnings('00 FF 58 04 04 0B 18 08')).toEqual([['midi-tempo', 'warning', 24]]);
    expect(warnings('00 FF 58 04 04 FF 18 08')).toEqual([['midi-tempo', 'warning', 24]]);
    expect(warnings('00 FF 58 01 04')).toEqual([['midi-tempo', 'warning', 24]]);
  });

  it('are warned of once a track and kind, with how many there are', () => {
    const tempo = '00 FF 51 03 00 00 00';
    expect(
      warnings('00 C0 05', `00 C0 05 ${tempo} ${tempo} 00 FF 58 04 00 02 18 08 ${tempo}`, tempo),
    ).toEqual([
      ['midi-tempo', 'warning', 14 + 15 + 8 + 5],
      ['midi-tempo', 'warning', 14 + 15 + 8 + 19],
      ['midi-tempo', 'warning', 14 + 15 + 8 + 36 + 8 + 2],
    ]);
    const { diagnostics } = readMidi(midi([[...bytes(tempo), ...bytes(tempo), ...bytes(tempo)]]), 'a.mid');
    expect(diagnostics[0]?.message).toContain('2 more');
  });

  it('are not those that say more or less than usual but enough', () => {
    expect(warnings('00 FF 58 02 03 02 00 FF 58 06 03 02 18 08 01 02 00 FF 51 04 07 A1 20 00')).toEqual([]);
    expect(warnings('00 FF 58 04 01 00 18 00 00 FF 58 04 FF 0A 18 08 00 FF 51 03 00 00 01')).toEqual([]);
  });
});
