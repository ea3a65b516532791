import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type MidiData, writeMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { clipOfSong, writeClip } from '../../src/clip/index.js';
import { readMap } from '../../src/map/index.js';
import { soundMeaning } from '../../src/map/meaning/index.js';
import { readMidi } from '../../src/midi/index.js';

function songOf(data: MidiData) {
  const { value } = readMidi(Uint8Array.from(writeMidi(data)), 'line.mid');
  if (!value) throw new Error('not read');
  return value;
}

const horn: MidiData = {
  header: { format: 1, numTracks: 2, ticksPerBeat: 480 },
  tracks: [
    [
      { deltaTime: 0, meta: true, type: 'setTempo', microsecondsPerBeat: 750_000 },
      { deltaTime: 960, meta: true, type: 'setTempo', microsecondsPerBeat: 600_000 },
      { deltaTime: 0, meta: true, type: 'endOfTrack' },
    ],
    [
      { deltaTime: 0, meta: true, type: 'trackName', text: 'Horns' },
      // A mark, whose meaning is in the notes, and words, which no clip has.
      { deltaTime: 0, meta: true, type: 'text', text: '[stopped]' },
      { deltaTime: 0, meta: true, type: 'text', text: 'from afar' },
      { deltaTime: 0, type: 'controller', channel: 5, controllerType: 1, value: 64 },
      { deltaTime: 0, type: 'pitchBend', channel: 5, value: 0 },
      { deltaTime: 0, type: 'noteOn', channel: 5, noteNumber: 60, velocity: 100 },
      { deltaTime: 480, type: 'noteOff', channel: 5, noteNumber: 60, velocity: 64 },
      { deltaTime: 0, type: 'noteOn', channel: 5, noteNumber: 62, velocity: 100 },
      { deltaTime: 480, type: 'noteOn', channel: 5, noteNumber: 62, velocity: 0 },
      { deltaTime: 0, meta: true, type: 'endOfTrack' },
    ],
  ],
};

describe('clipOfSong', () => {
  it('takes the music as it stands, and tells what a clip does not have', () => {
    const { clip, diagnostics } = clipOfSong(songOf(horn), [
      { name: 'Horns', track: 2, channel: 5, meaningOf: () => ({ mute: 14 }) },
    ]);
    expect(clip).toMatchObject({
      ticksPerQuarter: 480,
      endTick: 960,
      tempos: [
        { tick: 0, microsecondsPerQuarter: 750_000 },
        { tick: 960, microsecondsPerQuarter: 600_000 },
      ],
      parts: [
        {
          group: 0,
          channel: 5,
          messages: [
            { kind: 'controller', tick: 0, number: 1, value: 64 },
            { kind: 'bend', tick: 0, value: 8192 },
          ],
          notes: [
            { tick: 0, endTick: 480, pitch: 60, velocity: 100, releaseVelocity: 64, meaning: { mute: 14 } },
            { tick: 480, endTick: 960, pitch: 62, velocity: 100, meaning: { mute: 14 } },
          ],
        },
      ],
    });
    expect(clip?.parts[0]?.notes[1]).not.toHaveProperty('releaseVelocity');
    expect(diagnostics.map(({ code, message }) => [code, message])).toEqual([
      ['clip-left-out', '1 texts, lyrics, markers or cue points are not in the clip'],
    ]);
    expect(clip && writeClip(clip).bytes?.length).toBeGreaterThan(100);
  });

  it('gives parts on one channel groups of their own', () => {
    const part = { name: 'Horns', track: 2, channel: 5, meaningOf: () => undefined };
    const { clip } = clipOfSong(songOf(horn), [part, part]);
    expect(clip?.parts.map(({ group, channel }) => [group, channel])).toEqual([
      [0, 5],
      [1, 5],
    ]);
  });

  it('refuses frames, which a clip cannot count', () => {
    const song = songOf({
      ...horn,
      header: { format: 1, numTracks: 2, framesPerSecond: 25, ticksPerFrame: 40 },
    });
    const { clip, diagnostics } = clipOfSong(song, []);
    expect(clip).toBeUndefined();
    expect(diagnostics.map(({ code }) => code)).toEqual(['clip-resolution']);
  });
});

/** Articulations of this project's maps of which neither `means` nor the name says how they are played. */
const withoutClass = `breakwater-trombones: muted-long, muted-short
  cinder-lane-snare: flam, hit
  general-midi-brass: section
  general-midi-woodwinds: bassoon, clarinet, flute, oboe, piccolo
  tidewater-oboe: singing
  lantern-street-strings: run`;

const bytesAt = (file: string) => new Uint8Array(readFileSync(join('maps', file)));
const lent = new Map(readdirSync('maps/shared').map((name) => [`shared/${name}`, bytesAt(`shared/${name}`)]));

describe('soundMeaning', () => {
  it('has a class for every articulation of the maps but those that are listed here', () => {
    const none = new Map<string, string[]>();
    for (const file of readdirSync('maps').filter((name) => name.endsWith('.yaml'))) {
      const { value } = readMap(bytesAt(file), file, { bases: { folder: '', texts: lent } });
      expect(value).toBeDefined();
      for (const articulation of value?.articulations.values() ?? [])
        if (!soundMeaning(articulation)) {
          const map = file.replace('.yaml', '');
          none.set(map, [...(none.get(map) ?? []), articulation.name]);
        }
    }
    const listed = [...none].map(([map, names]) => `${map}: ${names.sort().join(', ')}`);
    expect(listed.sort()).toEqual(
      withoutClass
        .split('\n')
        .map((line) => line.trim())
        .sort(),
    );
  });

  it('follows the mark that a sound realises, and keeps a mute beside it', () => {
    const short = { name: 'short', means: ['staccato', 'spiccato'] };
    const id = (subclass: number) => ({ articulation: { type: 0x11, subclass, variation: 0 } });
    expect(soundMeaning(short)).toEqual(id(0));
    expect(soundMeaning(short, ['spiccato'])).toEqual(id(5));
    expect(soundMeaning(short, ['con sord.', 'accent'])).toEqual({ ...id(0), mute: 1 });
    expect(soundMeaning({ name: 'Pizzicato', means: [] })).toEqual(id(10));
    expect(soundMeaning({ name: 'whatever', means: [] })).toBeUndefined();
  });
});
