import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compile } from '../../src/compile/index.js';
import { readMidi } from '../../src/midi/read/index.js';
import { asPlayed, type TimingOptions } from '../../src/timing/options.js';
import { bytes } from '../midi/read/bytes.js';
import { readWhole } from '../support/map.js';

/** Found by random files; each made a time between two events that no MIDI file can say. */
const cases: readonly {
  readonly name: string;
  readonly file: string;
  readonly map: string;
  readonly track?: number;
  readonly channel?: number;
  readonly timing: Partial<TimingOptions>;
}[] = [
  {
    name: 'two notes struck together that are never heard apart',
    file: '4D546864 00000006 0001 0001 01E0 4D54726B 00000011 00903C50 8170803C00 00903E50 00FF2F00',
    map: 'maps/lantern-street-strings.yaml',
    timing: { compensate: true },
  },
  {
    name: 'a stray release between two strikes of a pitch',
    file: '4D546864 00000006 0001 0002 0018 4D54726B 0000000C 009B296F 008B2902 009B292C 4D54726B 00000000',
    map: 'maps/lantern-street-strings.yaml',
    channel: 11,
    timing: { compensate: true },
  },
  {
    name: 'the longest time of all, made longer',
    file: '4D546864 00000006 0001 0001 0018 4D54726B 00000017 00FF58040105180800903C40FFFFFF7F803C0000FF2F00',
    map: 'maps/saltmarsh-horns.yaml',
    timing: { pull: 0.4, compensate: true },
  },
  {
    name: 'a spread chord at a microsecond to the quarter note',
    file: '4D546864 00000006 0001 0002 7FFF 4D54726B 00000008 0096346F00963042 4D54726B 00000007 00FF5103000001',
    map: 'maps/demo/libraries/bell-buoy-drums.yaml',
    channel: 6,
    timing: { roll: { sdMs: 1000, order: 'unordered' } },
  },
];

describe('a time that no file can say', () => {
  for (const { name, file, map: path, track = 1, channel = 0, timing } of cases)
    it(`is a result or is told, never thrown: ${name}`, () => {
      const map = readWhole(readFileSync(path, 'utf8'));
      const { value: song } = readMidi(bytes(file), 'case.mid');
      if (!song) throw new Error('not read');
      const job = { part: { track, trackName: '', channel }, map, timing: { ...asPlayed, ...timing } };
      const { value, diagnostics } = compile(song, [job]);
      const told = diagnostics.filter(({ severity }) => severity === 'error').map(({ code }) => code);
      if (value === undefined) expect(told).toEqual(['midi-time']);
      else expect(readMidi(value.bytes, 'out.mid').diagnostics).toEqual([]);
    });
});
