import { describe, expect, it } from 'vitest';
import { EventBuilder, type Events, type Track, tickOf } from '../../src/midi/index.js';
import { readMidi } from '../../src/midi/read/index.js';
import { normal, trackBodies } from '../midi/read/normal.js';
import { written } from '../midi/write/written.js';
import { midicsv, realFiles } from './real.js';

const files = realFiles();

/** The events of a track, copied into bytes of their own. */
function copied({ columns }: Track): Events {
  const builder = new EventBuilder();
  for (let event = 0; event < columns.length; event++) builder.copy(tickOf(columns, event), columns, event);
  return builder.events();
}

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
      expect(song && Buffer.compare(written(song), bytes)).toBe(0);
    });

    it('is written back byte for byte where every track is spliced', () => {
      if (!song) throw new Error('not read');
      const changed = new Map(song.tracks.map(({ number, columns }) => [number, { events: columns }]));
      expect(Buffer.compare(written(song, changed), bytes)).toBe(0);
    });

    it('says the same where every track is written anew', () => {
      if (!song) throw new Error('not read');
      const anew = written(
        song,
        new Map(song.tracks.map((track) => [track.number, { events: copied(track) }])),
      );
      expect(midicsv(anew)).toBe(midicsv(bytes));
      expect(trackBodies(anew).map(normal)).toEqual(trackBodies(bytes).map(normal));
    });
  });
