import type { MidiEvent } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { analyse, partsOf } from '../../../src/compile/analyse/index.js';
import { plainMap } from '../../support/line.js';
import { songOf, trackOf } from '../../support/song.js';

const part = { track: 1, trackName: '', channel: 0 };

describe('understanding a part', () => {
  it('finds a part for each channel with notes', () => {
    const track = songOf([
      trackOf(
        [
          { tick: 0, end: 9, pitch: 60, channel: 9 },
          { tick: 0, end: 9, pitch: 60, channel: 2 },
        ],
        [],
        'Mixed',
      ),
    ]).tracks[0];
    expect(track && partsOf(track)).toEqual([
      { track: 1, trackName: 'Mixed', channel: 2 },
      { track: 1, trackName: 'Mixed', channel: 9 },
    ]);
  });

  it('reports a note that is never released (unclosed-note) and a release without a note (stray-release)', () => {
    const events = [
      { deltaTime: 480, type: 'noteOff', channel: 0, noteNumber: 50, velocity: 0 },
      { deltaTime: 480, type: 'noteOn', channel: 0, noteNumber: 60, velocity: 64 },
      { deltaTime: 960, type: 'endOfTrack', meta: true },
    ] as MidiEvent[];
    const { line, diagnostics } = analyse(songOf([events]), part, plainMap());
    expect(line.notes[0]?.held.ticks).toBe(960);
    expect(diagnostics).toMatchObject([
      { code: 'unclosed-note', severity: 'warning', place: { bar: 1, beat: 3, tick: 960 } },
      { code: 'stray-release', severity: 'warning', place: { bar: 1, beat: 2, tick: 480 } },
    ]);
  });
});
