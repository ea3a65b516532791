import fc from 'fast-check';
import { type MidiEvent, parseMidi, writeMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { proofOf } from '../../src/api/proof.js';
import { compileCue, planCue } from '../../src/cue/index.js';
import type { ArticulationMap } from '../../src/map/types.js';
import { readMidi } from '../../src/midi/read/index.js';
import type { Song } from '../../src/midi/song.js';
import { mapOfMethod, methods, randomLine } from '../support/arbitrary.js';
import { cueOf } from '../support/cue.js';
import { eventsOf } from '../support/events.js';
import { ladderMap, mapOf } from '../support/map.js';
import { controllerAt, songOf, type Timed, tempoAt, textAt, trackOf } from '../support/song.js';

const prefix = (tick: number, channel: number): Timed => ({
  tick,
  event: { type: 'channelPrefix', meta: true, channel } as Timed['event'],
});

/** Tracks put into one, in the order of time; a text of a track with a channel gets its channel prefix, where asked. */
function merged(tracks: readonly (readonly MidiEvent[])[], isPrefixed: boolean): MidiEvent[] {
  const timed = tracks.flatMap((track, index) => {
    let tick = 0;
    const channel = track.flatMap((event) => ('channel' in event ? [event.channel] : []))[0];
    return track.flatMap((event) => {
      tick += event.deltaTime;
      if (event.type === 'endOfTrack' || (event.type === 'trackName' && index > 0)) return [];
      const isOwn = isPrefixed && event.type === 'text' && channel !== undefined;
      return [{ tick, events: [...(isOwn ? [prefix(tick, channel).event as MidiEvent] : []), event] }];
    });
  });
  timed.sort((a, b) => a.tick - b.tick);
  let before = 0;
  const all = timed.flatMap(({ tick, events }) =>
    events.map((event) => {
      const deltaTime = tick - before;
      before = tick;
      return { ...event, deltaTime };
    }),
  );
  return [...all, { deltaTime: 0, type: 'endOfTrack', meta: true } as MidiEvent];
}

/** The same tracks, each ending where the last of them does: a track of format 0 knows no other end. */
function endingTogether(tracks: readonly MidiEvent[][]): MidiEvent[][] {
  const ends = tracks.map((track) => track.reduce((sum, { deltaTime }) => sum + deltaTime, 0));
  const last = Math.max(...ends);
  return tracks.map((track, index) =>
    track.map((event) =>
      event.type === 'endOfTrack'
        ? { ...event, deltaTime: event.deltaTime + last - (ends[index] ?? 0) }
        : event,
    ),
  );
}

function asType0(tracks: readonly MidiEvent[][], isPrefixed = true): Song {
  return songOf([merged(tracks, isPrefixed)], { format: 0 });
}

/** The events of each track but the ends of tracks, with ticks, as an outside reader has them. */
function tracksOf(bytes: Uint8Array | undefined) {
  return parseMidi(bytes ?? []).tracks.map((track) => {
    let tick = 0;
    return track.flatMap((event) => {
      tick += event.deltaTime;
      if (event.type === 'endOfTrack' || event.type === 'channelPrefix') return [];
      const { deltaTime: _, running: __, ...rest } = event as MidiEvent & { running?: boolean };
      return [JSON.stringify({ tick, ...rest })];
    });
  });
}

const partsYaml = (names: readonly string[], extra = '') =>
  `parts:\n${names.map((name, index) => `  - {name: ${name}, channel: ${index + 1}, map: ${name}.yaml${extra}}\n`).join('')}`;

const names = ['Flute', 'Horns', 'Celli'];

const anyMap = fc.constantFrom(...methods).chain((method) => mapOfMethod(method));

describe('a song of format 0 under a cue that chooses by channel', () => {
  it('comes out as the song of format 1 does, part by part, whatever maps and timing', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(randomLine, anyMap), { minLength: 2, maxLength: 3 }),
        fc.constantFrom(
          '',
          ', timing: {compensate: true, joins: true, roll: 12ms}',
          ', level: -3, seat: 0.2',
        ),
        fc.boolean(),
        (lines, extra, isMarked) => {
          const used = names.slice(0, lines.length);
          const tracks = endingTogether([
            trackOf([], [tempoAt(0, 96), tempoAt(960, 120), textAt(0, 'A', 'marker')], 'Score'),
            ...lines.map(([line], channel) =>
              trackOf(
                line.map((note) => ({ ...note, channel })),
                isMarked && channel === 1 ? [controllerAt(0, 1, 64, channel), textAt(240, '[pizz.]')] : [],
                names[channel],
              ),
            ),
          ]);
          const cue = cueOf(`preroll: 1\n${partsYaml(used, extra)}`);
          const maps = new Map<string, ArticulationMap>(
            lines.map(([, map], index) => [`${names[index]}.yaml`, map]),
          );
          const several = compileCue(cue, { song: songOf(tracks), maps });
          const one = compileCue(cue, { song: asType0(tracks), maps });
          expect(tracksOf(one.value?.bytes)).toEqual(tracksOf(several.value?.bytes));
          expect(one.diagnostics.map(({ code, message }) => [code, message])).toEqual(
            several.diagnostics.map(({ code, message }) => [code, message]),
          );
          const heard = one.value && readMidi(one.value.bytes, 'out.mid').value;
          if (one.value && heard)
            expect(proofOf(heard, one.value.planned.song, one.value, true).violations).toEqual([]);
        },
      ),
      { numRuns: 30 },
    );
  });
});

const map = mapOf(ladderMap);
const line = (pitch: number, channel: number) =>
  [480, 960, 1440].map((tick) => ({ tick, end: tick + 300, pitch, channel }));
const maps = new Map(names.map((name) => [`${name}.yaml`, map]));
const planned = (song: Song, yaml = partsYaml(names.slice(0, 2))) => planCue(cueOf(yaml), { song, maps });

describe('the tracks of a song of format 0', () => {
  const both = [trackOf([], [], 'Score'), trackOf(line(60, 0)), trackOf(line(50, 1))];

  it('are named as their parts are, else as the file names them with a prefix, else by channel', () => {
    const named = trackOf(
      [...line(60, 0), ...line(50, 1), ...line(55, 8)],
      [prefix(0, 1), { tick: 0, event: { type: 'trackName', meta: true, text: 'Corni' } as Timed['event'] }],
      'Score',
    );
    const { value } = planned(songOf([named], { format: 0 }));
    expect(value?.song.tracks.map(({ name }) => name)).toEqual(['Score', 'Flute', 'Corni', 'Channel 9']);
    expect(value?.song.format).toBe(1);
  });

  it('have every event once: tempo and exclusives in the first, messages of no part there too', () => {
    const system = {
      tick: 0,
      event: { type: 'sysEx', data: [0x7e, 0x7f, 9, 1, 0xf7] } as unknown as Timed['event'],
    };
    const others = [system, tempoAt(0, 90), controllerAt(0, 7, 100, 1), controllerAt(0, 7, 90, 12)];
    const { value } = planned(songOf([trackOf([...line(60, 0), ...line(50, 1)], others)], { format: 0 }));
    const kinds = value?.song.tracks.map((track) => eventsOf(track).map(({ event }) => event.type));
    expect(kinds?.[0]).toEqual(['sysEx', 'setTempo', 'controller', 'endOfTrack']);
    expect(kinds?.[2]?.slice(0, 2)).toEqual(['trackName', 'controller']);
    expect(kinds?.flat().filter((kind) => kind === 'noteOn')).toHaveLength(6);
  });

  it('all have the marks that no prefix gives to one of them', () => {
    const { value, diagnostics } = planned(
      asType0([...both, trackOf([], [textAt(480, '[pizz.]'), textAt(960, '[arco]')])], false),
    );
    expect(diagnostics).toMatchObject([
      {
        code: 'mark-for-all',
        place: { tick: 480 },
        message: expect.stringContaining('"[pizz.]" and 1 other'),
      },
    ]);
    const texts = value?.song.tracks.map(
      (track) => eventsOf(track).filter(({ event }) => event.type === 'text').length,
    );
    expect(texts).toEqual([0, 2, 2]);
  });

  it('stay one where no part is chosen by channel, or there is one channel: the bytes are as they were', () => {
    const song = asType0(both);
    expect(planned(song, 'parts:\n  - {name: All, track: 1, map: Flute.yaml}\n').value?.song).toBe(song);
    const single = asType0([trackOf(line(60, 0))]);
    expect(planned(single, partsYaml(['Flute'])).value?.song).toBe(single);
  });

  it('are found by the channel alone, or with the track that the file has', () => {
    const yaml =
      'parts:\n  - {name: A, track: 1, channel: 1, map: Flute.yaml}\n  - {name: B, track: Score, channel: 2, map: Flute.yaml}\n';
    const { value, diagnostics } = planned(asType0(both), yaml);
    expect(diagnostics).toEqual([]);
    expect(value?.jobs.map(({ part }) => [part.track, part.channel, part.trackName])).toEqual([
      [2, 0, 'A'],
      [3, 1, 'B'],
    ]);
  });
});

describe('a part with a channel and no track', () => {
  const found = (song: Song, channel: number) =>
    planned(song, `parts:\n  - {name: A, channel: ${channel}, map: Flute.yaml}\n`);
  const song = songOf([trackOf(line(60, 0), [], 'Flute'), trackOf(line(50, 1)), trackOf(line(52, 1))]);

  it('is the track with notes on that channel', () => {
    expect(found(song, 1).value?.jobs[0]?.part).toMatchObject({ track: 1, trackName: 'Flute' });
  });

  it('is told where there is none, or several', () => {
    expect(found(song, 3).diagnostics).toMatchObject([
      { code: 'no-notes', hint: 'it has notes on channel 1, 2', place: { line: 5 } },
    ]);
    expect(found(song, 2).diagnostics).toMatchObject([
      { code: 'unknown-track', message: 'several tracks have notes on channel 2: 2 "", 3 ""' },
    ]);
  });

  it('is what a track name that format 0 cannot have is told to be', () => {
    const { diagnostics } = planned(
      asType0([trackOf(line(60, 0)), trackOf(line(50, 1))]),
      'parts:\n  - {name: A, track: Oboes, channel: 1, map: Flute.yaml}\n',
    );
    expect(diagnostics[0]?.hint).toContain('leave track out');
  });

  it('needs one of the two', () => {
    expect(() => cueOf('parts:\n  - {name: A, map: a.yaml}\n')).toThrow('"track"');
  });
});

it('writeMidi and parseMidi of midi-file know channel prefixes', () => {
  const bytes = writeMidi({
    header: { format: 0, numTracks: 1, ticksPerBeat: 96 },
    tracks: [merged([trackOf(line(60, 3), [textAt(0, '[arco]')])], true)],
  });
  expect(parseMidi(bytes).tracks[0]?.[0]).toMatchObject({ type: 'channelPrefix', channel: 3 });
});
