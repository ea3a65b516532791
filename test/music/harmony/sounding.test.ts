import { describe, expect, it } from 'vitest';
import { isPitched, soundingNotes } from '../../../src/music/harmony/index.js';
import { songOf, trackOf } from '../../support/song.js';

const part = (trackName: string, channel = 0) => ({ track: 1, trackName, channel });

describe('sounding notes', () => {
  it('leave out percussion by channel 10 (General MIDI) and by name; timpani have pitches', () => {
    for (const name of [
      'Drums',
      'Perc 1',
      'Percussion',
      'Taikos',
      'Suspended Cymbal',
      'Snare',
      'Große Trommel und Becken',
    ])
      expect(isPitched(part(name))).toBe(false);
    for (const name of ['Timpani', 'Violins I', 'Customs', 'Horns']) expect(isPitched(part(name))).toBe(true);
    expect(isPitched(part('Horns', 9))).toBe(false);
  });

  it('stand in order of tick, each with its part', () => {
    const song = songOf([
      trackOf([{ tick: 480, end: 960, pitch: 60 }], [], 'Cello'),
      trackOf([{ tick: 0, end: 960, pitch: 67 }], [], 'Viola'),
      trackOf([{ tick: 0, end: 960, pitch: 40 }], [], 'Drums'),
    ]);
    const parts = song.tracks.map(({ number, name }) => ({ track: number, trackName: name, channel: 0 }));
    expect(soundingNotes(song, parts)).toEqual([
      { tick: 0, endTick: 960, pitch: 67, velocity: 80, part: 1 },
      { tick: 480, endTick: 960, pitch: 60, velocity: 80, part: 0 },
    ]);
  });
});
