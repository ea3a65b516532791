import { describe, expect, it } from 'vitest';
import { proofOf } from '../../src/api/proof.js';
import { panGains } from '../../src/dynamics/pan/pan.js';
import { ladderMap, mapOf } from '../support/map.js';
import { controllerAt, songOf, type Timed, trackOf } from '../support/song.js';
import { compiledCue, controllerOf, notesOf } from './support.js';

const notes = [480, 960, 1440].map((tick) => ({ tick, end: tick + 300, pitch: 60 }));
const take = (others: readonly Timed[] = []) => songOf([trackOf(notes, others, 'Horns')]);
const compiledPart = (keys: string, others: readonly Timed[] = [], map = '', head = '') =>
  compiledCue(
    `  - {name: Horns, track: 1, map: a.yaml, ${keys}}\n`,
    take(others),
    { 'a.yaml': mapOf(`${map}${ladderMap}`) },
    head,
  );
const dB = (value: number) => 40 * Math.log10(value / 127);

describe('the level of a part', () => {
  it('is written as the table of General MIDI has it: −4.8, −11.9, −23.9 and −36.0 dB', () => {
    const values = [0, -4.8, -11.9, -23.9, -36].map((level) =>
      controllerOf(compiledPart(`level: ${level}`).song?.tracks[0], 7),
    );
    expect(values).toEqual([127, 96, 64, 32, 16].map((value) => [[0, value]]));
  });

  it('goes to the controller of choice', () => {
    const { song } = compiledPart('level: -12', [], '', 'level-controller: 11\n');
    expect([controllerOf(song?.tracks[0], 7), controllerOf(song?.tracks[0], 11)]).toEqual([[], [[0, 64]]]);
  });

  it('keeps a recorded curve, shifted as a whole', () => {
    const recorded = [controllerAt(0, 7, 100), controllerAt(700, 7, 80), controllerAt(900, 7, 0)];
    const now = controllerOf(compiledPart('level: -6', recorded).song?.tracks[0], 7);
    expect(now.map(([tick]) => tick)).toEqual([0, 700, 900]);
    expect(dB(now[0]?.[1] ?? 0) - dB(100)).toBeCloseTo(-6, 0);
    expect(dB(now[1]?.[1] ?? 0) - dB(80)).toBeCloseTo(-6, 0);
    expect(now[2]?.[1]).toBe(0);
  });

  it('is set at the beginning where the recording says nothing up to the first note', () => {
    const now = controllerOf(compiledPart('level: -12', [controllerAt(700, 7, 127)]).song?.tracks[0], 7);
    expect(now).toEqual([
      [0, 64],
      [700, 64],
    ]);
  });

  it('warns where the controller cannot say it, and by how much', () => {
    const { song, diagnostics } = compiledPart('level: 3.5');
    expect(diagnostics).toMatchObject([{ code: 'no-headroom', severity: 'warning', place: { line: 5 } }]);
    expect(diagnostics[0]?.message).toContain('3.5 dB louder');
    expect(controllerOf(song?.tracks[0], 7)).toEqual([[0, 127]]);
    const recorded = compiledPart('level: 3', [controllerAt(0, 7, 120)]).diagnostics;
    expect(recorded.map(({ code }) => code)).toEqual(['no-headroom']);
    expect(compiledPart('level: 3', [controllerAt(0, 7, 90)]).diagnostics).toEqual([]);
  });

  it('counts players as incoherent sources: half as many are 3 dB softer', () => {
    const { song } = compiledPart('players: 2', [], 'players: 4\n');
    const [[, value = 0] = []] = controllerOf(song?.tracks[0], 7);
    expect(dB(value)).toBeCloseTo(-3.01, 0);
    const more = compiledPart('players: 8, level: -6', [], 'players: 4\n');
    const [[, with8 = 0] = []] = controllerOf(more.song?.tracks[0], 7);
    expect(dB(with8)).toBeCloseTo(-2.99, 0);
  });

  it('warns where the map does not say how many players were recorded', () => {
    const { song, diagnostics } = compiledPart('players: 2');
    expect(diagnostics.map(({ code }) => code)).toEqual(['no-players']);
    expect(controllerOf(song?.tracks[0], 7)).toEqual([]);
  });

  it('cannot share a controller with the dynamics or a switch of the map', () => {
    const dynamics = 'dynamics: {controller: 11, levels: {p: 30}}\n';
    const codes = (map: string, head: string, keys: string) =>
      compiledPart(keys, [], map, head).diagnostics.map(({ code }) => code);
    expect(codes(dynamics, 'level-controller: 11\n', 'level: -3')).toEqual(['controller-taken']);
    expect(codes(dynamics, '', 'level: -3')).toEqual([]);
    expect(codes('dynamics: {controller: 10, levels: {p: 30}}\n', '', 'seat: 0.2')).toEqual([
      'controller-taken',
    ]);
  });

  it('is proved with everything else', () => {
    const { compiled, song } = compiledPart('level: -3, seat: -0.5', [controllerAt(500, 7, 90)]);
    const proof = compiled && song && proofOf(song, compiled.planned.song, compiled, true);
    expect(proof?.violations).toEqual([]);
  });
});

describe('the level of a layer', () => {
  it('is against the part, which then has a level too', () => {
    const maps = { 'a.yaml': mapOf(ladderMap), 'b.yaml': mapOf(ladderMap) };
    const layer = 'layers: [{name: x, map: b.yaml, level: -12}]';
    const plain = compiledCue(`  - {name: H, track: 1, map: a.yaml, ${layer}}\n`, take(), maps).song;
    expect(plain?.tracks.map((track) => controllerOf(track, 7))).toEqual([[[0, 127]], [[0, 64]]]);
    const both = compiledCue(
      `  - {name: H, track: 1, map: a.yaml, level: -12, ${layer}}\n`,
      take(),
      maps,
    ).song;
    expect(both?.tracks.map((track) => controllerOf(track, 7))).toEqual([[[0, 64]], [[0, 32]]]);
    expect(notesOf(both?.tracks[1])).toHaveLength(3);
  });
});

describe('the seat of a part', () => {
  const difference = (value: number) => panGains(value).right - panGains(value).left;

  it('moves the recording half the way from its own seat, by RP-036', () => {
    const [[, middle] = []] = controllerOf(compiledPart('seat: 0').song?.tracks[0], 10);
    expect(middle).toBe(64);
    // Half the way from the middle to 1 less the edge is between a quarter and half of the stage.
    const [[, right = 0] = []] = controllerOf(compiledPart('seat: 1').song?.tracks[0], 10);
    expect([right > 90, right < 100]).toEqual([true, true]);
    const [[, stays] = []] = controllerOf(
      compiledPart('seat: -0.4', [], 'seat: -0.4\nwidth: 0.3\n').song?.tracks[0],
      10,
    );
    expect(stays).toBe(64);
  });

  it('goes to balance instead, if wanted', () => {
    const { song } = compiledPart('seat: 0.5', [], '', 'seat-controller: 8\n');
    expect([controllerOf(song?.tracks[0], 10), controllerOf(song?.tracks[0], 8).length]).toEqual([[], 1]);
  });

  it('moves a recorded pan by as many dB between the sides', () => {
    const [[, alone = 0] = []] = controllerOf(compiledPart('seat: 0.6').song?.tracks[0], 10);
    const recorded = [controllerAt(0, 10, 40), controllerAt(700, 10, 127)];
    const now = controllerOf(compiledPart('seat: 0.6', recorded).song?.tracks[0], 10);
    expect(now.map(([tick]) => tick)).toEqual([0, 700]);
    expect(difference(now[0]?.[1] ?? 0) - difference(40)).toBeCloseTo(difference(alone), 0);
    expect(now[1]?.[1]).toBe(127);
  });

  it('is reckoned with what the library was measured to do, on controller 10 alone', () => {
    const pan = 'pan: {left: -4.8, half-left: -1.3, half-right: 1.3, right: 4.8}\n';
    const panOf = (map: string, keys: string, head = '', controller = 10) =>
      controllerOf(compiledPart(keys, [], map, head).song?.tracks[0], controller)[0]?.[1] ?? 0;
    // Half the way to 0.28 is 1.92 dB, which lies behind 96.
    expect(difference(panOf('', 'seat: 0.28'))).toBeCloseTo(1.92, 0);
    expect(panOf(pan, 'seat: 0.28')).toBeGreaterThan(96);
    expect(panOf(pan, 'seat: 0.28', 'seat-controller: 8\n', 8)).toBe(panOf('', 'seat: 0.28'));
    const far = compiledPart('seat: 0.95', [], pan);
    expect(far.diagnostics).toMatchObject([
      { code: 'seat-unreached', severity: 'warning', place: { line: 5 } },
    ]);
    expect(far.diagnostics[0]?.message).toContain('is heard at 0.34 instead of 0.47');
    // A recorded pan is moved by as many dB of what the library really does.
    const [[, moved = 0] = []] = controllerOf(
      compiledPart('seat: 0.28', [controllerAt(0, 10, 32)], pan).song?.tracks[0],
      10,
    );
    expect(moved).toBeGreaterThan(64);
    expect(moved).toBeLessThan(96);
  });

  it('warns where it is farther than half the stage', () => {
    const { diagnostics } = compiledPart('seat: 0.8', [], 'seat: -0.6\n');
    expect(diagnostics).toMatchObject([{ code: 'far-seat', severity: 'warning' }]);
    expect(diagnostics[0]?.message).toContain('70% of the stage');
    expect(compiledPart('seat: 0.3', [], 'seat: -0.6\n').diagnostics).toEqual([]);
  });

  it('is shared by the layers of the part, wherever their libraries sit', () => {
    const maps = { 'a.yaml': mapOf(`seat: -0.5\n${ladderMap}`), 'b.yaml': mapOf(`seat: 0.2\n${ladderMap}`) };
    const yaml = '  - {name: H, track: 1, map: a.yaml, seat: -0.1, layers: [{name: x, map: b.yaml}]}\n';
    const values = compiledCue(yaml, take(), maps).song?.tracks.map(
      (track) => controllerOf(track, 10)[0]?.[1] ?? 0,
    );
    // By the law, a recording's own difference and that of the pan value add up to where it is heard.
    const seat = (at: number) => 20 * Math.log10(Math.tan((Math.PI * (at + 1)) / 4));
    const [part = 0, layer = 0] = values ?? [];
    expect(Math.abs(seat(-0.5) + difference(part) - (seat(0.2) + difference(layer)))).toBeLessThan(0.4);
  });

  it('may be another for a layer', () => {
    const maps = { 'a.yaml': mapOf(ladderMap), 'b.yaml': mapOf(ladderMap) };
    const yaml = '  - {name: H, track: 1, map: a.yaml, layers: [{name: x, map: b.yaml, seat: 0.5}]}\n';
    const [part = [], layer = []] =
      compiledCue(yaml, take(), maps).song?.tracks.map((track) => controllerOf(track, 10)) ?? [];
    const [[, alone] = []] = controllerOf(compiledPart('seat: 0.5').song?.tracks[0], 10);
    expect([part, layer]).toEqual([[], [[0, alone]]]);
  });
});
