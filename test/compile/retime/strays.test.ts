import { type MidiEvent, parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { compile } from '../../../src/compile/index.js';
import { asPlayed } from '../../../src/timing/options.js';
import { speaking } from '../../support/retimed.js';
import { songOf } from '../../support/song.js';

describe('a release without a note', () => {
  it('still stands before the strike of its key that it stood before, so that it cannot cut it off', () => {
    const events = [
      { deltaTime: 990, type: 'noteOff', channel: 0, noteNumber: 60, velocity: 0 },
      { deltaTime: 10, type: 'noteOn', channel: 0, noteNumber: 60, velocity: 90 },
      { deltaTime: 500, type: 'noteOff', channel: 0, noteNumber: 60, velocity: 0 },
      { deltaTime: 0, type: 'endOfTrack', meta: true },
    ] as MidiEvent[];
    const song = songOf([events], { ppq: 500 });
    const job = { part: { track: 1, trackName: '', channel: 0 }, map: speaking('0ms', '40ms') };
    const { value } = compile(song, [{ ...job, timing: { ...asPlayed, compensate: true } }]);
    let tick = 0;
    const at = (parseMidi(value?.bytes ?? []).tracks[0] ?? []).flatMap((event) => {
      tick += event.deltaTime;
      return 'noteNumber' in event && event.noteNumber === 60 ? [`${tick} ${event.type}`] : [];
    });
    expect(at).toEqual(['960 noteOff', '960 noteOn', '1500 noteOff']);
  });

  it('still stands behind the release that it stood behind, when that moves later', () => {
    const events = [
      { deltaTime: 960, type: 'noteOn', channel: 0, noteNumber: 60, velocity: 90 },
      { deltaTime: 400, type: 'noteOff', channel: 0, noteNumber: 60, velocity: 0 },
      { deltaTime: 10, type: 'noteOff', channel: 0, noteNumber: 60, velocity: 0 },
      { deltaTime: 600, type: 'endOfTrack', meta: true },
    ] as MidiEvent[];
    const song = songOf([events], { ppq: 500 });
    const job = { part: { track: 1, trackName: '', channel: 0 }, map: speaking('0ms', '0ms') };
    const grids = [{ numerator: 1, denominator: 4 }];
    const { value } = compile(song, [{ ...job, timing: { ...asPlayed, pull: 1, grids } }]);
    let tick = 0;
    const at = (parseMidi(value?.bytes ?? []).tracks[0] ?? []).flatMap((event) => {
      tick += event.deltaTime;
      return 'noteNumber' in event && event.noteNumber === 60 ? [`${tick} ${event.type}`] : [];
    });
    expect(at).toEqual(['1000 noteOn', '1400 noteOff', '1400 noteOff']);
  });
});
