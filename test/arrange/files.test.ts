import { readFileSync } from 'node:fs';
import { type MidiData, parseMidi, writeMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { type SymbolsText, setSong, type VoicePart, voiceSong } from '../../src/arrange/index.js';
import { compile } from '../../src/compile/index.js';
import { readMap } from '../../src/map/index.js';
import { partsOf, readMidi, type Song } from '../../src/midi/index.js';
import { instruments } from '../../src/music/instruments/index.js';

/** A rhythm on a drum, 96 ticks to the quarter, in 3/4 at 90. */
const drum: MidiData = {
  header: { format: 0, numTracks: 1, ticksPerBeat: 96 },
  tracks: [
    [
      { deltaTime: 0, meta: true, type: 'setTempo', microsecondsPerBeat: 666_667 },
      {
        deltaTime: 0,
        meta: true,
        type: 'timeSignature',
        numerator: 3,
        denominator: 4,
        metronome: 24,
        thirtyseconds: 8,
      },
      ...[0, 1, 2, 3].flatMap((bar): MidiData['tracks'][number] => [
        { deltaTime: bar === 0 ? 0 : 144, type: 'noteOn', channel: 9, noteNumber: 38, velocity: 100 + bar },
        { deltaTime: 48, type: 'noteOff', channel: 9, noteNumber: 38, velocity: 0 },
        { deltaTime: 48, type: 'noteOn', channel: 9, noteNumber: 38, velocity: 60 + bar },
        { deltaTime: 48, type: 'noteOff', channel: 9, noteNumber: 38, velocity: 0 },
        { deltaTime: 0, meta: true, type: 'text', text: `bar ${bar + 1}` },
      ]),
      { deltaTime: 0, meta: true, type: 'endOfTrack' },
    ],
  ],
};
const bytesOf = (data: MidiData) => Uint8Array.from(writeMidi(data));

function songOf(bytes: Uint8Array | undefined, name: string): Song {
  const { value } = readMidi(bytes ?? new Uint8Array(), name);
  if (!value) throw new Error(`${name} cannot be read`);
  return value;
}

const symbols = (text: string): SymbolsText => ({ file: 'chords.txt', symbols: text });
const drumSong = songOf(bytesOf(drum), 'drum.mid');
const voiced4 = (bytes: Uint8Array | undefined, parts: readonly VoicePart[], position: 'open' | 'close') =>
  voiceSong(songOf(bytes, 'set.mid'), parts, { position }, 'night.cue.yaml');

/** Onsets of a track with their absolute ticks, as midi-file reads them. */
function onsets(bytes: Uint8Array | undefined, track: number) {
  let tick = 0;
  return (bytes ? (parseMidi(bytes).tracks[track] ?? []) : []).flatMap((event) => {
    tick += event.deltaTime;
    return event.type === 'noteOn' && event.velocity > 0 ? [{ tick, ...event }] : [];
  });
}

const quartet: readonly VoicePart[] = (['violin', 'violin', 'viola', 'cello'] as const).map((name, index) => {
  const { low, high } = instruments[name];
  return { name: `${name} ${index + 1}`, range: { low, high } };
});

describe('setSong and voiceSong', () => {
  it('take a drum and four chord symbols to four parts', () => {
    const set = setSong(drumSong, symbols('| Dm | Gm/B♭ | C7 | F |'));
    expect(set.diagnostics).toEqual([]);
    const struck = onsets(set.bytes, 1);
    expect([...new Set(struck.map(({ tick }) => tick))]).toEqual([0, 96, 288, 384, 576, 672, 864, 960]);
    const read = parseMidi(set.bytes ?? new Uint8Array());
    expect(read.header).toMatchObject({ format: 1, numTracks: 2, ticksPerBeat: 96 });
    expect(read.tracks[0]?.map(({ type }) => type)).toEqual(['setTempo', 'timeSignature', 'endOfTrack']);

    const voiced = voiced4(set.bytes, quartet, 'open');
    expect(voiced.diagnostics).toEqual([]);
    const tracks = [1, 2, 3, 4].map((track) => onsets(voiced.bytes, track));
    for (const notes of tracks) {
      expect(notes.map(({ tick }) => tick)).toEqual([0, 96, 288, 384, 576, 672, 864, 960]);
      expect(notes.map(({ velocity }) => velocity)).toEqual([100, 60, 101, 61, 102, 62, 103, 63]);
    }
    expect(
      parseMidi(voiced.bytes ?? new Uint8Array())
        .tracks.slice(1)
        .map(([first]) => first),
    ).toMatchObject([{ text: 'violin 1' }, { text: 'violin 2' }, { text: 'viola 3' }, { text: 'cello 4' }]);
    // D2, B♭2, C2 or C3, F: the cellos have the bass of each symbol.
    expect(tracks[3]?.map(({ noteNumber }) => noteNumber % 12)).toEqual([2, 2, 10, 10, 0, 0, 5, 5]);
    expect(voiced4(set.bytes, quartet, 'open')).toEqual(voiced);
  });

  it('lead to a compiled cue: what they write is music like any other', () => {
    const map = readMap(new Uint8Array(readFileSync('maps/lantern-street-strings.yaml')), 'map.yaml').value;
    if (!map) throw new Error('the map has errors');
    const set = setSong(drumSong, symbols('| Dm | Gm/B♭ | C7 | F |'));
    const parts = ['First', 'Second', 'Third', 'Fourth'].map((name) => ({ name, range: map.range }));
    const song = songOf(voiced4(set.bytes, parts, 'close').bytes, 'voiced.mid');
    const jobs = song.tracks.flatMap(partsOf).map((part) => ({ part, map }));
    const compiled = compile(song, jobs);
    expect(jobs.map(({ part }) => part.trackName)).toEqual(['First', 'Second', 'Third', 'Fourth']);
    expect(compiled.diagnostics.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(compiled.value?.parts.map(({ decided }) => decided.length)).toEqual([8, 8, 8, 8]);
  });

  it('lay a sketch over a rhythm by its beats, each of its tracks a part', () => {
    const chord = (name: string, pitches: readonly number[], channel: number): MidiData['tracks'][number] => [
      { deltaTime: 0, meta: true, type: 'trackName', text: name },
      ...pitches.flatMap((noteNumber): MidiData['tracks'][number] => [
        { deltaTime: 0, type: 'noteOn', channel, noteNumber, velocity: 50 },
        { deltaTime: 1440, type: 'noteOff', channel, noteNumber, velocity: 0 },
      ]),
      { deltaTime: 0, meta: true, type: 'endOfTrack' },
    ];
    const sketch: MidiData = {
      header: { format: 1, numTracks: 2, ticksPerBeat: 480 },
      tracks: [chord('Upper', [64, 65, 67, 69], 0), chord('Lower', [48, 53, 55, 53], 1)],
    };
    const { bytes, diagnostics } = setSong(drumSong, songOf(bytesOf(sketch), 'sketch.mid'));
    expect(diagnostics).toEqual([]);
    expect(onsets(bytes, 1).map(({ noteNumber }) => noteNumber)).toEqual([64, 64, 65, 65, 67, 67, 69, 69]);
    expect(onsets(bytes, 2).map(({ noteNumber }) => noteNumber)).toEqual([48, 48, 53, 53, 55, 55, 53, 53]);
  });

  it('write nothing where a symbol cannot be read, and say where it is', () => {
    const wrong = setSong(drumSong, symbols('| X |'));
    expect(wrong).toMatchObject({
      bytes: undefined,
      diagnostics: [
        { code: 'unknown-chord', severity: 'error', place: { kind: 'text', file: 'chords.txt', column: 3 } },
      ],
    });
    expect(voiced4(bytesOf(drum), quartet, 'open')).toMatchObject({
      bytes: undefined,
      diagnostics: [{ code: 'no-chords', place: { kind: 'file', file: 'set.mid' } }],
    });
  });

  it('tell of ticks as bars of the file that they count in, and of parts in the file that names them', () => {
    const short = setSong(drumSong, symbols('| C |'));
    expect(short.diagnostics).toMatchObject([
      {
        code: 'chords-end',
        severity: 'warning',
        place: { kind: 'music', file: 'drum.mid', bar: 2, beat: 1 },
      },
    ]);
    const none = voiced4(short.bytes, [{ name: 'None', range: { low: 60, high: 50 } }], 'close');
    expect(none.diagnostics).toMatchObject([{ code: 'part-range', place: { file: 'night.cue.yaml' } }]);
  });
});
