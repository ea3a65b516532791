import { describe, expect, it } from 'vitest';
import { onlyParts, planCue } from '../../src/cue/index.js';
import { cueOf } from '../support/cue.js';
import { ladderMap, mapOf } from '../support/map.js';
import { controllerAt, songOf, trackOf } from '../support/song.js';
import { compiledCue, controllerOf } from './support.js';

const notes = [480, 960, 1440].map((tick) => ({ tick, end: tick + 300, pitch: 60 }));
const take = songOf([trackOf(notes, [], 'Horns'), trackOf(notes, [], 'Oboe'), trackOf(notes, [], 'Bells')]);
const measured = (level: number, more = '') => mapOf(`reference-level: ${level}\n${more}${ladderMap}`);
const plain = mapOf(ladderMap);
const parts = (horns = 'level: -6', oboe = 'level: -6') =>
  `  - {name: Horns, track: Horns, map: loud.yaml, ${horns}}\n  - {name: Oboe, track: Oboe, map: soft.yaml, ${oboe}}\n`;
const maps = { 'loud.yaml': measured(-24), 'soft.yaml': measured(-36), 'plain.yaml': plain };

/** What a value of volume makes of a library's loudness (General MIDI 2, 3.3.4). */
const dB = (value: number) => 40 * Math.log10(value / 127);
const volumes = (yaml: string, head = '', song = take) => {
  const found = compiledCue(yaml, song, maps, head);
  return {
    codes: found.diagnostics.map(({ code }) => code),
    diagnostics: found.diagnostics,
    values: found.song?.tracks.map((track) => controllerOf(track, 7)) ?? [],
  };
};

describe('levels of measured libraries', () => {
  it('mean the same loudness: as loud as the softest of them at mf', () => {
    const { values, codes } = volumes(parts());
    expect(codes).toEqual([]);
    const [horns = 0, oboe = 0] = values.map(([[, value] = [0, 0]] = []) => value);
    // Half a step of the controller is at most 0.17 dB at these values.
    expect(Math.abs(-24 + dB(horns) - (-36 + dB(oboe)))).toBeLessThan(0.35);
    expect(Math.abs(-36 + dB(oboe) + 42)).toBeLessThan(0.2);
  });

  it('are against the loudness that the cue says, and where it is out of reach that is told', () => {
    const said = volumes(parts('level: 0', 'level: 0'), 'reference-level: -40\n');
    expect(said.codes).toEqual([]);
    const loudness = said.values
      .slice(0, 2)
      .map(([[, value] = [0, 0]] = [], index) => (index === 0 ? -24 : -36) + dB(value));
    for (const one of loudness) expect(Math.abs(one + 40)).toBeLessThan(0.2);
    const far = volumes(parts('level: 0', 'level: 0'), 'reference-level: -30\n');
    expect(far.codes).toEqual(['no-headroom']);
    expect(far.diagnostics[0]?.message).toContain('"Oboe" would have to be 6.0 dB louder');
    expect(far.diagnostics[0]?.hint).toContain('reference-level');
    expect(far.values[1]).toEqual([[0, 127]]);
  });

  it('shift a recorded curve as a whole', () => {
    const song = songOf([
      trackOf(notes, [controllerAt(0, 7, 100), controllerAt(700, 7, 80)], 'Horns'),
      trackOf(notes, [], 'Oboe'),
    ]);
    const [[[, first = 0] = [], [, second = 0] = []] = []] = volumes(parts('level: 0'), '', song).values;
    expect(dB(first) - dB(100)).toBeCloseTo(-12, 0);
    expect(dB(second) - dB(80)).toBeCloseTo(-12, 0);
  });

  it('of layers are against the part, in loudness', () => {
    const { values, codes } = volumes(
      '  - {name: Horns, track: Horns, map: loud.yaml, level: -12, layers: [{name: reed, map: soft.yaml, level: -3}]}\n',
    );
    expect(codes).toEqual([]);
    const [base = 0, layer = 0] = [values[0], values[3]].map(([[, value] = [0, 0]] = []) => value);
    expect(Math.abs(-36 + dB(layer) - (-24 + dB(base)) + 3)).toBeLessThan(0.4);
  });

  it('do not hang on which parts are compiled', () => {
    const cue = cueOf(`parts:\n${parts()}`);
    const material = { song: take, maps: new Map(Object.entries(maps)) };
    const whole = planCue(cue, material).value?.song.tracks[0];
    const alone = planCue(onlyParts(cue, ['Horns']), material).value?.song.tracks[0];
    expect(controllerOf(alone, 7)).toEqual(controllerOf(whole, 7));
    expect(controllerOf(alone, 7)).not.toEqual([]);
  });
});

describe('where libraries were not measured', () => {
  it('levels are as before, to the byte, whatever else the maps have', () => {
    const song = (yaml: string, head = '') =>
      compiledCue(yaml, take, { ...maps, 'loud.yaml': plain, 'soft.yaml': plain }, head).compiled?.bytes;
    const yaml = `${parts('level: -6, layers: [{name: l, map: soft.yaml, level: -2}]')}`;
    expect(song(yaml, 'reference-level: -50\n')).toEqual(song(yaml));
    const [[horns] = [], [oboe] = []] = compiledCue(parts(), take, {
      'loud.yaml': plain,
      'soft.yaml': plain,
    }).song?.tracks.map((track) => controllerOf(track, 7)) ?? [[]];
    // The table of General MIDI.
    expect([horns, oboe]).toEqual([
      [0, 90],
      [0, 90],
    ]);
  });

  it('and others were, they stay as they are, and it is said', () => {
    const bells = '  - {name: Bells, track: Bells, map: plain.yaml, level: -6}\n';
    const { values, diagnostics } = volumes(parts() + bells);
    expect(values[2]).toEqual([[0, 90]]);
    expect(diagnostics).toMatchObject([{ code: 'level-apart', severity: 'warning' }]);
    expect(diagnostics[0]?.message).toBe(
      '"Bells" stays as loud as its library is, since "test.yaml" has no reference-level; measured parts with a level are brought to -36.0 LUFS at mf',
    );
    // Alone among parts that were not measured, one that was has nothing to be brought to.
    expect(volumes(`  - {name: Horns, track: Horns, map: loud.yaml, level: -6}\n${bells}`).codes).toEqual([]);
  });

  it('a measured part without a level is left alone, and it is said where others are moved', () => {
    const { values, diagnostics } = volumes(`${parts()}  - {name: Bells, track: Bells, map: loud.yaml}\n`);
    expect(values[2]).toEqual([]);
    expect(diagnostics).toMatchObject([{ code: 'level-apart' }]);
    expect(diagnostics[0]?.message).toContain('it has no level');
    expect(volumes('  - {name: Bells, track: Bells, map: loud.yaml}\n').values[2]).toEqual([]);
  });

  it('a layer of a part that was not measured is as before', () => {
    const yaml = (map: string) =>
      `  - {name: Bells, track: Bells, map: plain.yaml, level: -6, layers: [{name: l, map: ${map}}]}\n`;
    expect(volumes(yaml('loud.yaml')).values[3]).toEqual(volumes(yaml('plain.yaml')).values[3]);
  });
});
