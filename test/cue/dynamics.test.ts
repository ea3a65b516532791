import { describe, expect, it } from 'vitest';
import { proofOf } from '../../src/api/proof.js';
import type { Song } from '../../src/midi/song.js';
import { decisionsIn } from '../support/decided.js';
import { eventsOf } from '../support/events.js';
import { mapOf } from '../support/map.js';
import { controllerAt, songOf, type TestNote, type Timed, textAt, trackOf } from '../support/song.js';
import { compiledCue, controllerOf, notesOf } from './support.js';

const articulations = `
articulations:
  short: {switch: {note: C0}, loudness: velocity}
  long: {switch: {note: D0}, loudness: controller, speaks-after: 100ms}
rules:
  - when: {held: {below: 150ms}}
    use: short
  - use: long
`;
const levelled = (levels: string, more = '') =>
  mapOf(`${more}dynamics: {controller: 1, levels: ${levels}}${articulations}`);
/** As the identity table: ppp 15, and 15 more for each mark. */
const identity = levelled('{ppp: 15, pp: 30, p: 45, mp: 60, mf: 75, f: 90, ff: 105, fff: 120}');
const library = levelled('{p: 30, mf: 68, f: 92}');
/** Long, short, long; a tick is 1.0417 ms. */
const line: readonly TestNote[] = [
  { tick: 960, end: 1800, pitch: 60, velocity: 60 },
  { tick: 1920, end: 2000, pitch: 64, velocity: 90 },
  { tick: 2400, end: 3300, pitch: 67, velocity: 70 },
];
const wheel = [0, 25, 64, 75, 90, 101, 127, 3].map((value, index) => controllerAt(index * 300, 1, value));
const take = (others: readonly Timed[] = []) => songOf([trackOf(line, others, 'Horns')]);
const compiledWith = (dynamics: string, others: readonly Timed[] = [], map = library, more = '') =>
  compiledCue(`  - {name: Horns, track: 1, map: a.yaml, dynamics: ${dynamics}${more}}\n`, take(others), {
    'a.yaml': map,
  });

describe('dynamics that keep what was recorded', () => {
  it('return the recorded controller unchanged by an identity table, event for event', () => {
    const { compiled } = compiledWith('{source: keep}', wheel, identity);
    const plain = compiledCue('  - {name: Horns, track: 1, map: a.yaml}\n', take(wheel), {
      'a.yaml': identity,
    });
    expect(compiled?.bytes).toEqual(plain.compiled?.bytes);
    const controllers = (of: Song | undefined) =>
      eventsOf(of?.tracks[0]).filter(({ event }) => event.type === 'controller');
    const [recorded, written] = [controllers(take(wheel)), controllers(compiled?.planned.song)];
    expect(recorded.length).toBeGreaterThan(0);
    expect(written).toEqual(recorded);
  });

  it("put each mark where the library's levels have it, on the ticks that were played", () => {
    const marks = [
      controllerAt(0, 1, 45),
      controllerAt(300, 1, 75),
      controllerAt(900, 1, 90),
      controllerAt(999, 1, 0),
    ];
    const { song, diagnostics } = compiledWith('{source: keep}', [...marks, controllerAt(40, 2, 45)]);
    expect(diagnostics).toEqual([]);
    expect(controllerOf(song?.tracks[0], 1)).toEqual([
      [0, 30],
      [300, 68],
      [900, 92],
      [999, 0],
    ]);
    expect(controllerOf(song?.tracks[0], 2)).toEqual([[40, 45]]);
  });

  it('mean the same in the library of a layer', () => {
    const played = [controllerAt(0, 1, 45), controllerAt(900, 1, 90)];
    const maps = { 'a.yaml': library, 'b.yaml': levelled('{p: 10, f: 120}') };
    const yaml =
      '  - {name: H, track: 1, map: a.yaml, dynamics: {source: keep}, layers: [{name: x, map: b.yaml}]}\n';
    const { song } = compiledCue(yaml, take(played), maps);
    expect(song?.tracks.map((track) => controllerOf(track, 1).map(([, value]) => value))).toEqual([
      [30, 92],
      [10, 120],
    ]);
  });

  it('need the levels of the map', () => {
    const { diagnostics } = compiledWith('{source: keep}', wheel, mapOf(articulations));
    expect(diagnostics).toMatchObject([{ code: 'no-levels', severity: 'error', place: { line: 5 } }]);
  });
});

describe('dynamics from the marks in the music', () => {
  const marks = [textAt(960, '[p]'), textAt(1900, '[cresc.]'), textAt(2400, '[f]')];

  it('reach each level when its mark says so, and grow in between', () => {
    const { song, diagnostics } = compiledWith('{source: marks}', marks);
    expect(diagnostics).toEqual([]);
    const points = controllerOf(song?.tracks[0], 1);
    const values = points.map(([, value]) => value);
    // p and f of the library, within the step that thinning may be off
    expect([Math.abs((values[0] ?? 0) - 30) <= 1, Math.abs((values.at(-1) ?? 0) - 92) <= 1]).toEqual([
      true,
      true,
    ]);
    expect(values).toEqual([...values].sort((a, b) => a - b));
    expect(points.slice(1).every(([tick]) => tick > 1900 && tick <= 2400)).toBe(true);
  });

  it('are there before the first note, at the tick of its switch or before', () => {
    for (const more of [
      '',
      ', timing: {compensate: true}',
      ', timing: {compensate: true, pull: 90%, grid: 1/4}',
    ]) {
      const { song } = compiledWith('{source: marks}', marks, library, more);
      const track = song?.tracks[0];
      const ticksOf = (type: string) =>
        eventsOf(track).flatMap(({ tick, event }) => (event.type === type ? [tick] : []));
      const [value = -1, first = -1] = [ticksOf('controller')[0], ticksOf('noteOn')[0]];
      expect(value).toBeGreaterThan(0);
      // The first note-on is the switch key's.
      expect(value).toBeLessThanOrEqual(first);
    }
  });

  it('become the velocity of notes that are loud by velocity; those loud by the controller keep theirs', () => {
    const { song, compiled } = compiledWith('{source: marks, start: pp}', [textAt(1920, '[f]')]);
    // ppp is 15, each mark 15 more: f is 90, MusicXML's forte.
    expect(decisionsIn(compiled?.parts[0]).map(({ articulation }) => articulation)).toEqual([
      'long',
      'short',
      'long',
    ]);
    expect(notesOf(song?.tracks[0]).map(([, , , velocity]) => velocity)).toEqual([60, 90, 70]);
    const soft = compiledWith('{source: marks, start: pp}');
    expect(notesOf(soft.song?.tracks[0]).map(([, , , velocity]) => velocity)).toEqual([60, 30, 70]);
  });

  it('decide nothing else: articulations are chosen by what was played', () => {
    const loud = mapOf(
      `dynamics: {controller: 1, levels: {p: 30, f: 92}}\narticulations:\n  hard: {switch: {note: C0}}\n  soft: {switch: {note: D0}}\nrules:\n  - when: {velocity: {from: 80}}\n    use: hard\n  - use: soft\n`,
    );
    const { compiled, song } = compiledWith('{source: marks, start: ppp}', [], loud);
    expect(decisionsIn(compiled?.parts[0]).map(({ articulation }) => articulation)).toEqual([
      'soft',
      'hard',
      'soft',
    ]);
    expect(notesOf(song?.tracks[0]).map(([, , , velocity]) => velocity)).toEqual([15, 15, 15]);
  });

  it('take the place of what was recorded on that controller, and of no other', () => {
    const { song } = compiledWith('{source: marks, start: mf}', [...wheel, controllerAt(700, 2, 9)]);
    expect(controllerOf(song?.tracks[0], 1).map(([, value]) => value)).toEqual([68]);
    expect(controllerOf(song?.tracks[0], 2)).toEqual([[700, 9]]);
  });

  it('are no unknown marks there, but stay so where nothing reads them', () => {
    const plain = compiledCue('  - {name: H, track: 1, map: a.yaml}\n', take(marks), { 'a.yaml': library });
    expect(plain.diagnostics.map(({ code }) => code)).toEqual([
      'mark-in-music',
      'mark-in-music',
      'mark-in-music',
    ]);
    const wrong = compiledWith('{source: marks}', [...marks, textAt(2000, '[mff]')]).diagnostics;
    expect(wrong.map(({ code }) => code)).toEqual(['mark-in-music']);
  });

  it('need levels only for a library that is loud by a controller', () => {
    const missing = compiledWith('{source: marks}', [], mapOf(articulations)).diagnostics;
    expect(missing.map(({ code }) => code)).toEqual(['no-levels']);
    const struck = mapOf('articulations:\n  hit: {switch: {note: C0}}\nrules:\n  - use: hit\n');
    const { song, diagnostics } = compiledWith('{source: marks, start: f}', wheel, struck);
    expect(diagnostics).toEqual([]);
    expect(notesOf(song?.tracks[0]).map(([, , , velocity]) => velocity)).toEqual([90, 90, 90]);
    expect(controllerOf(song?.tracks[0], 1)).toHaveLength(wheel.length);
  });
});

describe('dynamics shaped from the line', () => {
  it('follow the line, and stay near the level they are laid on', () => {
    const { song, diagnostics } = compiledWith('{source: shape, start: mf}');
    expect(diagnostics).toEqual([]);
    const values = controllerOf(song?.tracks[0], 1).map(([, value]) => value);
    expect(new Set(values).size).toBeGreaterThan(5);
    // mf is 68 here; p and f, which are 2 and 1 marks away, are 30 and 92.
    expect(Math.min(...values)).toBeGreaterThan(30);
    expect(Math.max(...values)).toBeLessThan(92);
  });

  it('are flat where every amount is nothing', () => {
    const { song } = compiledWith('{source: shape, start: f, arch: 0, velocities: 0, swell: 0, decay: 0}');
    expect(controllerOf(song?.tracks[0], 1).map(([, value]) => value)).toEqual([92]);
  });

  it('are laid on the marks in the music', () => {
    const flat = '{source: shape, arch: 0, velocities: 0, swell: 0, decay: 0}';
    const marks = [textAt(960, '[p]'), textAt(1920, '[f]')];
    const { song } = compiledWith(flat, marks);
    expect(controllerOf(song?.tracks[0], 1).map(([, value]) => value)).toEqual([30, 92]);
  });

  it('are drawn for the layers too, by the levels of their libraries', () => {
    const maps = { 'a.yaml': library, 'b.yaml': levelled('{p: 10, mf: 20, f: 120}') };
    const yaml =
      '  - {name: H, track: 1, map: a.yaml, dynamics: {source: marks}, layers: [{name: x, map: b.yaml, velocity: {add: 5}}]}\n';
    const { song, compiled, diagnostics } = compiledCue(yaml, take([textAt(1920, '[f]')]), maps);
    expect(diagnostics).toEqual([]);
    expect(song?.tracks.map((track) => controllerOf(track, 1).map(([, value]) => value))).toEqual([
      [68, 92],
      [20, 120],
    ]);
    expect(notesOf(song?.tracks[1]).map(([, , , velocity]) => velocity)).toEqual([65, 95, 75]);
    const proof = compiled && song && proofOf(song, compiled.planned.song, compiled, true);
    expect(proof?.violations).toEqual([]);
  });
});
