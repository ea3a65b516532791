import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { proofOf } from '../../src/api/proof.js';
import { compile } from '../../src/compile/index.js';
import { compileCue, mapsOf, onlyParts, planCue } from '../../src/cue/index.js';
import { readMidi } from '../../src/midi/read/index.js';
import { mapOfMethod, methods, randomLine } from '../support/arbitrary.js';
import { cueOf } from '../support/cue.js';
import { draws } from '../support/draws.js';
import { eventsOf } from '../support/events.js';
import { ladderMap, mapOf } from '../support/map.js';
import { songOf, trackOf } from '../support/song.js';

const map = mapOf(ladderMap);
const maps = new Map([['a.yaml', map]]);
const notes = (pitch: number, length = 200) =>
  [0, 480, 960, 1440].map((tick) => ({ tick: tick + 480, end: tick + 480 + length, pitch }));
const song = songOf([
  trackOf([], [], 'Score'),
  trackOf(notes(50), [], 'Horns'),
  trackOf(notes(60), [], 'Violas'),
]);
const jobOf = (track: number, trackName: string) => ({ part: { track, trackName, channel: 0 }, map });

describe('a cue with one part and no extras', () => {
  const cue = cueOf('parts:\n  - {name: Line, track: 1, map: a.yaml}\n');

  it('gives the bytes of compile', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...methods).chain((method) => mapOfMethod(method)),
        randomLine,
        (library, line) => {
          const played = songOf([trackOf(line, [], 'Line')]);
          const [whole, plain] = [
            compileCue(cue, { song: played, maps: new Map([['a.yaml', library]]) }),
            compile(played, [{ part: { track: 1, trackName: 'Line', channel: 0 }, map: library }]),
          ];
          expect(whole.value?.bytes).toEqual(plain.value?.bytes);
          expect(whole.diagnostics).toEqual(plain.diagnostics);
        },
      ),
      { seed: 5, numRuns: draws(100) },
    );
  });

  it('does so with timing and a preroll', () => {
    const timing = { compensate: false, joins: true, pull: 0.5, seed: 1 };
    const timed = cueOf(
      'parts:\n  - {name: A, track: Horns, map: a.yaml, timing: {joins: true, pull: 50%}}\n',
    );
    expect(compileCue(timed, { song, maps }).value?.bytes).toEqual(
      compile(song, [{ ...jobOf(2, 'Horns'), timing }]).value?.bytes,
    );
    const later = compileCue({ ...timed, preroll: 2 }, { song, maps }).value?.bytes;
    const { value: read } = readMidi(later ?? new Uint8Array(), 'later.mid');
    const first = eventsOf(read?.tracks[1]).find(({ event }) => event.type === 'noteOn');
    expect(first?.tick).toBeGreaterThan(2 * 4 * 480);
  });
});

describe('the parts of a cue', () => {
  const both = cueOf(
    'parts:\n  - {name: Low, track: Horns, map: a.yaml}\n  - {name: High, track: 3, map: a.yaml}\n',
  );

  it('go by the name or the number of their track', () => {
    const { value } = compileCue(both, { song, maps });
    expect(value?.bytes).toEqual(compile(song, [jobOf(2, 'Horns'), jobOf(3, 'Violas')]).value?.bytes);
    expect(value?.planned.jobs.map(({ name, part }) => [name, part.track])).toEqual([
      ['Low', 2],
      ['High', 3],
    ]);
  });

  it('are all heard as meant by the model of the library', () => {
    const { value } = compileCue(both, { song, maps });
    const { value: heard } = readMidi(value?.bytes ?? new Uint8Array(), 'out.mid');
    const proof = value && heard && proofOf(heard, value.planned.song, value, true);
    expect(proof).toMatchObject({ violations: [], notes: 8 });
  });

  it('may be compiled for themselves; a change of one leaves the bytes of the other tracks as they were', () => {
    const chunks = (bytes: Uint8Array | undefined) =>
      readMidi(bytes ?? new Uint8Array(), 'out.mid').value?.chunks.map(({ bytes: chunk }) => chunk) ?? [];
    const before = chunks(compileCue(both, { song, maps }).value?.bytes);
    const [low, high] = both.parts;
    if (!low || !high) throw new Error('the cue has two parts');
    const other = {
      ...both,
      parts: [low, { ...high, timing: { compensate: false, joins: true, pull: 1, seed: 3 } }],
    };
    const changed = mapOf(ladderMap.replace('130ms', '250ms').replace('130ms', '250ms'));
    const after = chunks(
      compileCue(
        { ...other, parts: [low, { ...high, map: { ...high.map, text: 'b.yaml' } }] },
        { song, maps: new Map([...maps, ['b.yaml', changed]]) },
      ).value?.bytes,
    );
    expect(after[1]).toEqual(before[1]);
    expect(after[0]).toEqual(before[0]);
    expect(after[2]).not.toEqual(before[2]);
    const alone = chunks(compileCue(onlyParts(both, ['Low']), { song, maps }).value?.bytes);
    expect(alone[1]).toEqual(before[1]);
    expect(alone[2]).toEqual(song.chunks[2]?.bytes);
  });

  it('have hints in terms of cues', () => {
    const slow = mapOf(
      'articulations:\n  only: {switch: {note: C0}, speaks-after: 900ms}\nrules:\n  - use: only\n',
    );
    const cue = cueOf('parts:\n  - {name: A, track: Horns, map: a.yaml, timing: {compensate: true}}\n');
    const { diagnostics } = compileCue(cue, { song, maps: new Map([['a.yaml', slow]]) });
    expect(diagnostics).toMatchObject([{ code: 'starts-late', hint: 'preroll: 1 in the cue gives it room' }]);
  });

  it('name each map once', () => {
    expect(mapsOf(both).map(({ text }) => text)).toEqual(['a.yaml']);
  });
});

describe('what a cue can have wrong with its source', () => {
  const plan = (yaml: string, of = song) => planCue(cueOf(`parts:\n${yaml}`), { song: of, maps });
  const codes = (yaml: string, of = song) => plan(yaml, of).diagnostics.map(({ code, hint }) => [code, hint]);

  it('is a track that is not there', () => {
    expect(codes('  - {name: A, track: Hrons, map: a.yaml}\n')).toEqual([
      ['unknown-track', 'did you mean "Horns"?'],
    ]);
    expect(codes('  - {name: A, track: 9, map: a.yaml}\n')).toEqual([
      ['unknown-track', 'tracks with notes are 2 "Horns", 3 "Violas"'],
    ]);
  });

  it('is a name of several tracks', () => {
    const twins = songOf([trackOf(notes(50), [], 'Horns'), trackOf(notes(60), [], 'Horns')]);
    expect(codes('  - {name: A, track: Horns, map: a.yaml}\n', twins)).toEqual([
      ['unknown-track', 'say which by its number: 1, 2'],
    ]);
  });

  it('is a track without notes, or none on the channel', () => {
    expect(codes('  - {name: A, track: Score, map: a.yaml}\n')[0]?.[0]).toBe('no-notes');
    expect(codes('  - {name: A, track: Horns, channel: 4, map: a.yaml}\n')).toEqual([
      ['no-notes', 'it has notes on channel 1'],
    ]);
  });

  it('is two parts with the same notes', () => {
    const yaml = '  - {name: A, track: Horns, map: a.yaml}\n  - {name: B, track: 2, map: a.yaml}\n';
    expect(codes(yaml)).toEqual([
      ['part-taken', 'a second library on the same notes is a layer of the part'],
    ]);
    expect(plan(yaml).value).toBeUndefined();
  });

  it('is that it has no bars to put before the music', () => {
    const frames = songOf([trackOf(notes(50), [], 'Horns')], {
      smpte: { framesPerSecond: 25, ticksPerFrame: 40 },
    });
    const cue = cueOf('preroll: 1\nparts:\n  - {name: A, track: 1, map: a.yaml}\n');
    expect(planCue(cue, { song: frames, maps }).diagnostics).toMatchObject([
      { code: 'fraction-without-beats', place: { kind: 'text', line: 2 } },
    ]);
  });

  it('is told of all parts at once', () => {
    const yaml = '  - {name: A, track: Bells, map: a.yaml}\n  - {name: B, track: Score, map: a.yaml}\n';
    expect(codes(yaml).map(([code]) => code)).toEqual(['unknown-track', 'no-notes']);
  });

  it('are several channels in one track, which are compiled all', () => {
    const mixed = songOf([
      trackOf([...notes(50), ...notes(70).map((note) => ({ ...note, channel: 2 }))], [], 'Mixed'),
    ]);
    const { value, diagnostics } = plan('  - {name: A, track: Mixed, map: a.yaml}\n', mixed);
    expect(diagnostics.map(({ code }) => code)).toEqual(['several-channels']);
    expect(value?.jobs.map(({ part }) => part.channel)).toEqual([0, 2]);
  });
});
