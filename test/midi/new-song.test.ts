import { parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { EventBuilder, newSong, readMidi, writeMidi } from '../../src/midi/index.js';

function track() {
  const builder = new EventBuilder();
  builder.meta(0, 0x03, new TextEncoder().encode('Oboe'));
  builder.message(0, 0x90, 60, 70);
  builder.message(96, 0x80, 60, 64);
  builder.meta(96, 0x2f, []);
  return { name: 'Oboe', events: builder.events() };
}

// Standard MIDI Files 1.0, "Header Chunks"; read by midi-file.
describe('newSong', () => {
  it.each([
    [{ kind: 'ppq', ppq: 96 } as const, { format: 1, numTracks: 2, ticksPerBeat: 96 }],
    [
      { kind: 'smpte', framesPerSecond: 25, ticksPerFrame: 40 } as const,
      { format: 1, numTracks: 2, framesPerSecond: 25, ticksPerFrame: 40 },
    ],
  ])('with %j is written as a file that others read', (division, header) => {
    const song = newSong('new.mid', division, [track(), track()]);
    const { value: bytes } = writeMidi(song, new Map());
    const read = parseMidi(bytes ?? new Uint8Array());
    expect(read.header).toMatchObject(header);
    expect(read.tracks[1]?.map(({ type }) => type)).toEqual(['trackName', 'noteOn', 'noteOff', 'endOfTrack']);
    expect(readMidi(bytes ?? new Uint8Array(), 'new.mid').value?.division).toEqual(division);
  });
});
