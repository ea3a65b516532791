import { describe, expect, it } from 'vitest';
import { readMidi } from '../../src/midi/read/index.js';
import { writeMidi } from '../../src/midi/write/index.js';
import { normal, trackBodies } from '../midi/read/normal.js';
import { midicsv, realFiles } from './real.js';

const files = realFiles();

it('there are 31 real files', () => {
  expect(files).toHaveLength(31);
});

for (const { name, bytes } of files)
  describe(name, () => {
    const { value: song, diagnostics } = readMidi(bytes, name);

    it('is read', () => {
      expect(diagnostics.filter(({ severity }) => severity === 'error')).toEqual([]);
      expect(song?.tracks.length).toBeGreaterThan(0);
    });

    it('is written back byte for byte', () => {
      expect(song && Buffer.compare(writeMidi(song, new Map()), bytes)).toBe(0);
    });

    it('says the same where every track is written anew', () => {
      if (!song) throw new Error('not read');
      const written = writeMidi(song, new Map(song.tracks.map(({ number, events }) => [number, events])));
      expect(midicsv(written)).toBe(midicsv(bytes));
      expect(trackBodies(written).map(normal)).toEqual(trackBodies(bytes).map(normal));
    });
  });
