import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { proofOf } from '../../src/api/proof.js';
import { mapOfMethod, methods, randomLine } from '../support/arbitrary.js';
import { decisionsIn, nowIn } from '../support/decided.js';
import { draws } from '../support/draws.js';
import { eventsOf } from '../support/events.js';
import { ladderMap, mapOf } from '../support/map.js';
import { controllerAt, songOf, type TestNote, type Timed, textAt, trackOf } from '../support/song.js';
import { compiledCue, controllerOf, notesOf } from './support.js';

const base = mapOf(ladderMap);
const bite = mapOf(`
range: [C3, C7]
articulations:
  snap: {switch: {note: C0}, speaks-after: 50ms}
rules:
  - use: snap
`);
const maps = { 'a.yaml': base, 'b.yaml': bite };
/** Loud, soft, loud; a tick is 1.0417 ms. */
const line: readonly TestNote[] = [
  { tick: 480, end: 900, pitch: 60, velocity: 110 },
  { tick: 960, end: 1400, pitch: 62, velocity: 50 },
  { tick: 1440, end: 1800, pitch: 64, velocity: 120 },
];
const take = (notes = line, others: readonly Timed[] = []) => songOf([trackOf(notes, others, 'Horns')]);
const layered = (layer: string, song = take(), more = '') =>
  compiledCue(
    `  - name: Horns\n    track: Horns\n    map: a.yaml\n${more}    layers:\n      - ${layer}\n`,
    song,
    maps,
  );

describe('a layer', () => {
  it('doubles the notes on a track of its own, named after part and layer', () => {
    const { song, diagnostics } = layered('{name: bite, map: b.yaml}');
    expect(diagnostics).toEqual([]);
    expect(song?.tracks.map(({ name }) => name)).toEqual(['Horns', 'Horns – bite']);
    expect(notesOf(song?.tracks[1])).toEqual(notesOf(take().tracks[0]));
  });

  it('leaves the track of the part as it is without it, to the byte', () => {
    const { song } = layered('{name: bite, map: b.yaml, transpose: 12}');
    const plain = compiledCue('  - {name: Horns, track: Horns, map: a.yaml}\n', take(), maps);
    expect(song?.chunks[0]?.bytes).toEqual(plain.song?.chunks[0]?.bytes);
  });

  it('doubles only the notes that are chosen, by what they are like', () => {
    const { song } = layered('{name: bite, map: b.yaml, on: {when: {velocity: {from: 100}}}}');
    expect(notesOf(song?.tracks[1]).map(([tick]) => tick)).toEqual([480, 1440]);
    const long = layered('{name: bite, map: b.yaml, on: {when: {held: {from: 400ms}}}}');
    expect(notesOf(long.song?.tracks[1]).map(([tick]) => tick)).toEqual([480, 960]);
  });

  it('doubles only the notes that are chosen, by marks; with both, both must fit', () => {
    const song = take(line, [textAt(960, '[stacc.]')]);
    const marked = layered('{name: bite, map: b.yaml, on: {marked: [staccato]}}', song);
    expect(notesOf(marked.song?.tracks[1]).map(([tick]) => tick)).toEqual([960, 1440]);
    const both = layered(
      '{name: bite, map: b.yaml, on: {marked: staccato, when: {velocity: {from: 100}}}}',
      song,
    );
    expect(notesOf(both.song?.tracks[1]).map(([tick]) => tick)).toEqual([1440]);
  });

  it("knows the articulations of the part's map as marks, as its rules do", () => {
    const song = take(line, [textAt(960, '[medium]'), textAt(1430, '[auto]')]);
    const { song: out, diagnostics } = layered('{name: bite, map: b.yaml, on: {marked: Medium}}', song);
    expect(diagnostics).toEqual([]);
    expect(notesOf(out?.tracks[1]).map(([tick]) => tick)).toEqual([960]);
    const wrong = layered('{name: bite, map: b.yaml, on: {marked: [mediun]}}', song).diagnostics;
    expect(wrong).toMatchObject([
      { code: 'unknown-mark', hint: 'did you mean "medium"?', place: { kind: 'text' } },
    ]);
  });

  it('has its own velocities, lengths and pitches', () => {
    const { song } = layered(
      '{name: bite, map: b.yaml, velocity: {scale: 0.5, add: 70}, held-at-most: 200ms, transpose: 12}',
    );
    // 192 ticks are 200 ms at 120 bpm and 480 ticks a quarter
    expect(notesOf(song?.tracks[1])).toEqual([
      [480, 672, 72, 125],
      [960, 1152, 74, 95],
      [1440, 1632, 76, 127],
    ]);
  });

  it('says which notes its library lacks, where first, and leaves them out', () => {
    const { song, diagnostics } = layered('{name: bite, map: b.yaml, transpose: -14}');
    expect(notesOf(song?.tracks[1]).map(([, , pitch]) => pitch)).toEqual([48, 50]);
    expect(diagnostics).toMatchObject([
      {
        code: 'layer-lacks-note',
        severity: 'warning',
        place: { kind: 'music', tick: 480, track: 1 },
        message: 'the library of layer "bite" has no A#2 (once); it has C3 to C7',
      },
    ]);
  });

  it("starts earlier by its own library's time to speak", () => {
    const more = '    timing: {compensate: true}\n';
    const { song } = layered('{name: bite, map: b.yaml}', take(), more);
    // The part's map speaks at once; 50 ms are 48 ticks.
    expect(notesOf(song?.tracks[0]).map(([tick]) => tick)).toEqual([480, 960, 1440]);
    expect(notesOf(song?.tracks[1]).map(([tick]) => tick)).toEqual([432, 912, 1392]);
    const own = layered('{name: bite, map: b.yaml, timing: {compensate: false}}', take(), more);
    expect(notesOf(own.song?.tracks[1]).map(([tick]) => tick)).toEqual([480, 960, 1440]);
  });

  it('has its first dynamics by the time of its first switch, however slowly its library speaks', () => {
    const dynamics = 'dynamics: {controller: 1, levels: {p: 40, f: 90}}\n';
    const slow = mapOf(
      `${dynamics}articulations:\n  snap: {switch: {note: C0}, speaks-after: 300ms, loudness: controller}\nrules:\n  - use: snap\n`,
    );
    const own = { 'a.yaml': mapOf(`${dynamics}${ladderMap}`), 'b.yaml': slow };
    const more =
      'timing: {compensate: true}, dynamics: {source: shape, start: mf}, layers: [{name: bite, map: b.yaml}]';
    const { song } = compiledCue(`  - {name: H, track: 1, map: a.yaml, ${more}}\n`, take(), own);
    const [part, layer] = (song?.tracks ?? []).map((track) => ({
      value: controllerOf(track, 1)[0]?.[0] ?? Number.POSITIVE_INFINITY,
      note: notesOf(track).map(([tick]) => tick),
    }));
    // 300 ms are 288 ticks.
    expect([part?.note[0], layer?.note[0]]).toEqual([480, 192]);
    expect(layer?.value).toBeLessThanOrEqual(192);
  });

  it('follows the part where its notes are pulled, rolled and loosened', () => {
    const loose = line.map((note, index) => ({ ...note, tick: note.tick + 20 * (index - 1) }));
    const { song } = layered(
      '{name: bite, map: b.yaml}',
      take(loose),
      '    timing: {pull: 50%, loosen: 8ms}\n',
    );
    const [own, its] = (song?.tracks ?? []).map((track) => notesOf(track).map(([tick]) => tick));
    expect(own).not.toEqual(loose.map(({ tick }) => tick));
    expect(its).toEqual(own);
  });

  it("has the part's controllers and bends, with dynamics that sound alike in its library", () => {
    const quiet = (controller: number, p: number, f: number) =>
      `dynamics: {controller: ${controller}, levels: {p: ${p}, f: ${f}}}\n`;
    const own = {
      'a.yaml': mapOf(`${quiet(1, 40, 90)}${ladderMap}`),
      'b.yaml': mapOf(
        `${quiet(11, 20, 120)}articulations:\n  snap: {switch: {note: C0}}\nrules:\n  - use: snap\n`,
      ),
    };
    const others = [
      controllerAt(0, 1, 40),
      controllerAt(900, 1, 90),
      controllerAt(100, 64, 127),
      controllerAt(90, 11, 3),
    ];
    const { song } = compiledCue(
      '  - {name: H, track: 1, map: a.yaml, layers: [{name: x, map: b.yaml}]}\n',
      take(line, others),
      own,
    );
    expect(controllerOf(song?.tracks[1], 11)).toEqual([
      [0, 20],
      [900, 120],
    ]);
    expect([controllerOf(song?.tracks[1], 1), controllerOf(song?.tracks[1], 64)]).toEqual([[], [[100, 127]]]);
    expect(controllerOf(song?.tracks[0], 1)).toEqual([
      [0, 40],
      [900, 90],
    ]);
  });

  it('doubles all channels of its part on its one track', () => {
    const other = line.map((note) => ({ ...note, pitch: note.pitch + 12, channel: 2 }));
    const { song, compiled } = layered('{name: bite, map: b.yaml}', take([...line, ...other]));
    expect(song?.tracks).toHaveLength(2);
    expect(compiled?.planned.jobs.map(({ part, layer }) => [part.track, part.channel, layer])).toEqual([
      [1, 0, undefined],
      [1, 2, undefined],
      [2, 0, 'bite'],
      [2, 2, 'bite'],
    ]);
    expect(notesOf(song?.tracks[1])).toHaveLength(6);
  });

  it('makes a file of format 1 of one of format 0, and refuses format 2', () => {
    const single = songOf([trackOf(line, [], 'Horns')], { format: 0 });
    const { song, compiled } = layered('{name: bite, map: b.yaml}', single);
    expect([song?.format, song?.tracks.length, compiled?.bytes[9], compiled?.bytes[11]]).toEqual([
      1, 2, 1, 2,
    ]);
    const apart = songOf([trackOf(line, [], 'Horns')], { format: 2 });
    expect(layered('{name: bite, map: b.yaml}', apart).diagnostics.map(({ code }) => code)).toEqual([
      'layer-format',
    ]);
  });

  it('measures no fractions where there are no beats', () => {
    const frames = songOf([trackOf(line, [], 'Horns')], {
      smpte: { framesPerSecond: 25, ticksPerFrame: 40 },
    });
    const codes = (layer: string) => layered(layer, frames).diagnostics.map(({ code }) => code);
    expect(codes('{name: bite, map: b.yaml, held-at-most: 1/16}')).toEqual(['fraction-without-beats']);
    expect(codes('{name: bite, map: b.yaml, on: {when: {pace: {below: 1/8}}}}')).toEqual([
      'fraction-without-beats',
    ]);
    expect(codes('{name: bite, map: b.yaml, held-at-most: 100ms}')).toEqual([]);
  });
});

describe('a layer on chords', () => {
  /** Two chords of three: the first has one note over 100, the second none. */
  const chords: readonly TestNote[] = [104, 90].flatMap((velocity, at) =>
    [57, 60, 65].map((pitch, index) => ({
      tick: 480 * (at + 1) + 8 * index,
      end: 480 * (at + 1) + 300,
      pitch,
      velocity: index === 1 ? velocity : 80,
    })),
  );
  const pitches = (layer: string) =>
    notesOf(layered(layer, take(chords)).song?.tracks[1]).map(([, , pitch]) => pitch);

  it('doubles them whole, as their strongest note asks', () => {
    expect(pitches('{name: x, map: b.yaml, on: {when: {velocity: {from: 100}}}}')).toEqual([57, 60, 65]);
    expect(pitches('{name: x, map: b.yaml, on: {when: {velocity: {to: 95}}}}')).toEqual([57, 60, 65]);
  });

  it('doubles each note as it asks itself, where the cue says so', () => {
    expect(pitches('{name: x, map: b.yaml, on: {when: {velocity: {from: 100}}, each: note}}')).toEqual([60]);
    expect(pitches('{name: x, map: b.yaml, on: {when: {pitch: {from: C4}}, each: note}}')).toEqual([
      60, 65, 60, 65,
    ]);
  });
});

describe('a layer of another articulation', () => {
  it("is made from the part's own map, and every note gets it, marks or not", () => {
    const marked = take(line, [textAt(960, '[long]'), textAt(1400, '[auto]')]);
    const { compiled, diagnostics } = layered('{name: x, articulation: short}', marked);
    expect(diagnostics).toEqual([]);
    expect(decisionsIn(compiled?.parts[1]).map(({ articulation }) => articulation)).toEqual([
      'short',
      'short',
      'short',
    ]);
    expect(decisionsIn(compiled?.parts[0]).map(({ articulation }) => articulation)).not.toContain('short');
  });

  it('is an error where its map has none of that name', () => {
    const wrong = layered('{name: x, articulation: medum}').diagnostics;
    expect(wrong).toMatchObject([
      { code: 'unknown-articulation', severity: 'error', hint: 'did you mean "medium"?', place: { line: 9 } },
    ]);
    expect(layered('{name: x, map: b.yaml, articulation: short}').diagnostics).toMatchObject([
      { code: 'unknown-articulation', hint: 'it has snap' },
    ]);
  });
});

describe('a layer with a channel of its own', () => {
  it('has its notes, its switches and the controllers of the part there', () => {
    const song = take(line, [controllerAt(100, 64, 127)]);
    const { compiled, song: out } = layered('{name: x, map: b.yaml, channel: 9}', song);
    const channels = new Set(
      eventsOf(out?.tracks[1]).flatMap(({ event }) => ('channel' in event ? [event.channel] : [])),
    );
    expect([...channels]).toEqual([8]);
    expect(controllerOf(out?.tracks[1], 64)).toEqual([[100, 127]]);
    const proof = compiled && out && proofOf(out, compiled.planned.song, compiled, true);
    expect(proof).toMatchObject({ violations: [], notes: 6 });
  });

  it('is refused where its part has several', () => {
    const other = line.map((note) => ({ ...note, channel: 2 }));
    const { diagnostics } = layered('{name: x, map: b.yaml, channel: 9}', take([...line, ...other]));
    expect(diagnostics.map(({ code }) => code)).toEqual(['several-channels', 'layer-channels']);
  });
});

describe('a layer of a library', () => {
  const layerOf = (library: string) => {
    const { compiled, song, diagnostics } = compiledCue(
      '  - {name: Horns, track: Horns, map: a.yaml, layers: [{name: x, map: b.yaml}]}\n',
      take(),
      { 'a.yaml': base, 'b.yaml': mapOf(library) },
    );
    expect(diagnostics).toEqual([]);
    const proof = compiled && song && proofOf(song, compiled.planned.song, compiled, true);
    expect(proof).toMatchObject({ violations: [], notes: 6 });
    return notesOf(song?.tracks[1], 0);
  };

  it('that has strokes on keys of their own is struck there', () => {
    const notes = layerOf('articulations: {stroke: {key: D1}}\nrules: [{use: stroke}]\n');
    expect(notes.map(([, , key, velocity]) => [key, velocity])).toEqual([
      [26, 110],
      [26, 50],
      [26, 120],
    ]);
  });

  it('that is shifted by an octave is sent the shifted notes', () => {
    const notes = layerOf('transpose: -12\narticulations: {low: {}}\nrules: [{use: low}]\n');
    expect(notes.map(([, , key]) => key)).toEqual([48, 50, 52]);
  });

  it('whose velocity picks the recording is sent velocities of that recording', () => {
    const notes = layerOf('articulations: {hard: {velocity: {into: [64, 100]}}}\nrules: [{use: hard}]\n');
    // 1 is laid on 64 and 127 on 100: 64 + (v − 1) · 36 / 126
    expect(notes.map(([, , , velocity]) => velocity)).toEqual(
      [110, 50, 120].map((played) => Math.round(64 + ((played - 1) * 36) / 126)),
    );
  });

  it('that joins notes by steps is joined by its own', () => {
    const joined = line.map((note, index) => ({ ...note, end: index < 2 ? note.tick + 480 : note.end }));
    const { song } = compiledCue(
      '  - {name: H, track: Horns, map: a.yaml, layers: [{name: x, map: b.yaml, timing: {joins: true}}]}\n',
      take(joined),
      {
        'a.yaml': base,
        'b.yaml': mapOf(`
articulations:
  bow: {joins: {overlap: [{when: {velocity: {from: 100}}, is: 50ms}, {is: 25ms}]}}
rules: [{use: bow}]
`),
      },
    );
    // 48 and 24 ticks are 50 and 25 ms at 120 bpm and 480 ticks a quarter
    expect(notesOf(song?.tracks[1]).map(([tick = 0, end = 0]) => end - tick)).toEqual([528, 504, 360]);
  });
});

describe('layers of any libraries on any line', () => {
  const library = fc.constantFrom(...methods).chain((method) => mapOfMethod(method));
  const choice = fc.constantFrom(
    '',
    ', on: {when: {velocity: {from: 64}}}',
    ', on: {when: {chord: {to: 1}}}',
    ', held-at-most: 90ms',
    ', transpose: 5, level: -4',
    ', velocity: {scale: 0.7}',
    ', timing: {compensate: true, joins: true}',
  );
  const more = fc.constantFrom(
    '',
    'timing: {pull: 70%, joins: true}, ',
    'level: -3, seat: 0.5, ',
    'timing: {roll: 20ms}, ',
    'dynamics: {source: shape}, ',
  );

  it('add no note where the part has none, and are heard as meant on every track', () => {
    fc.assert(
      fc.property(library, library, randomLine, choice, more, (one, other, notes, layer, extra) => {
        const song = songOf([trackOf(notes, [], 'Line')]);
        const {
          compiled,
          song: out,
          diagnostics,
        } = compiledCue(
          `  - {name: L, track: 1, map: a.yaml, ${extra}layers: [{name: x, map: b.yaml${layer}}]}\n`,
          song,
          { 'a.yaml': one, 'b.yaml': other },
        );
        expect(diagnostics.filter(({ severity }) => severity === 'error')).toEqual([]);
        if (!compiled || !out) throw new Error('it does not compile');
        const proof = proofOf(out, compiled.planned.song, compiled, true);
        expect(proof.violations).toEqual([]);
        expect(proof.parts.map(({ track }) => track)).toEqual([1, 2]);
        const [part, doubling] = compiled.parts;
        const struck = new Set(nowIn(part).map(({ note }) => note.tick));
        const isPlain = !extra.includes('timing') && !layer.includes('timing');
        for (const note of doubling?.line.notes ?? []) if (isPlain) expect(struck.has(note.tick)).toBe(true);
        expect(doubling?.line.notes.length).toBeLessThanOrEqual(notes.length);
      }),
      { seed: 11, numRuns: draws(60) },
    );
  });
});
