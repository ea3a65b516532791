import { parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { proofOf } from '../../src/api/proof.js';
import { readMidi } from '../../src/midi/read/index.js';
import type { Song } from '../../src/midi/song.js';
import { balanceByBar, sectionsOfJobs } from '../../src/music/index.js';
import { explainPart, report } from '../../src/report/index.js';
import { compiledToHear } from '../../src/sound/hear/index.js';
import { cueOf } from '../support/cue.js';
import { eventsOf } from '../support/events.js';
import { mapOf } from '../support/map.js';
import { controllerAt, songOf, trackOf } from '../support/song.js';
import { compiledCue } from './support.js';

// The law, reckoned here by itself: the power of n of N players is n/N; a velocity or volume v has the power (v/127)⁴,
// which is 40 · log10(v/127) dB (General MIDI 2, 3.3.4, for volume).
const powerOf = (value: number, full = 127) => (value / full) ** 4;
/** Within half a step of the value, which rounding takes; a little more, since levels are rounded in dB. */
const near = (value: number, full: number, wanted: number) => {
  expect(powerOf(value - 0.51, full)).toBeLessThanOrEqual(wanted);
  expect(powerOf(value + 0.51, full)).toBeGreaterThanOrEqual(wanted);
};

const byVelocity = mapOf(
  'articulations:\n  hit: {switch: {note: C0}, speaks-after: 50ms}\nrules:\n  - use: hit\n',
);
const byController = mapOf(
  'articulations:\n  long: {switch: {note: C0}, loudness: controller, speaks-after: 50ms}\nrules:\n  - use: long\ndynamics: {controller: 1, levels: {p: 40, f: 90}}\n',
);
const maps = { 'v.yaml': byVelocity, 'c.yaml': byController };
const chord = (tick: number, pitches: readonly number[], velocity = 100) =>
  pitches.map((pitch) => ({ tick, end: tick + 900, pitch, velocity }));
// Bars of 4/4 at 480: one note, four, three, one.
const notes = [
  ...chord(1920, [60]),
  ...chord(3840, [70, 60, 64, 67]),
  ...chord(5760, [60, 64, 67]),
  ...chord(7680, [60]),
];
const song = songOf([trackOf(notes, [controllerAt(0, 1, 90)], 'Flutes')]);
const compiled = (map: string, extra: string, of: Song = song) =>
  compiledCue(`  - {name: Flutes, track: Flutes, map: ${map}, divide: {${extra}}}\n`, of, maps);

/** Notes and volume of the output, as an outside reader has them. */
function sent(bytes: Uint8Array | undefined) {
  let [tick, volume] = [0, 127];
  return (parseMidi(bytes ?? []).tracks[0] ?? []).flatMap((event) => {
    tick += event.deltaTime;
    if (event.type === 'controller' && event.controllerType === 7) volume = event.value;
    if (event.type !== 'noteOn' || event.noteNumber < 24 || event.velocity === 0) return [];
    return [{ tick, pitch: event.noteNumber, velocity: event.velocity, volume }];
  });
}

describe('a divided part that is loud by velocity', () => {
  const { compiled: value, diagnostics } = compiled('v.yaml', 'by: top-down, players: [6, 6]');

  it('has in the velocity of each note how many play it: four notes for twelve are four times three', () => {
    const found = sent(value?.bytes);
    expect(found.map(({ volume }) => volume)).toEqual(found.map(() => 127));
    const players = new Map([
      [3840, [3, 3, 3, 3]],
      [5760, [6, 3, 3]],
    ]);
    for (const tick of [1920, 3840, 5760, 7680]) {
      const at = found.filter((note) => note.tick === tick).sort((a, b) => a.pitch - b.pitch);
      at.forEach(({ velocity }, index) => {
        const playing = players.get(tick)?.[index] ?? 12;
        near(velocity, 100, playing / 12);
      });
    }
    expect(diagnostics).toEqual([]);
  });

  it('is explained and reported with its players', () => {
    const [part] = value?.parts ?? [];
    const lines = part ? [...explainPart(part)] : [];
    expect(lines[2]).toContain('3 of 12 players, −6.0 dB');
    expect(lines[1]).not.toContain('players');
    const told = report('in.mid', value?.parts ?? []).parts[0]?.notes.map(({ players }) => players?.playing);
    expect(told).toEqual([12, 3, 3, 3, 3, 6, 3, 3, 12]);
  });

  it('is proved with these velocities, and not with others', () => {
    const proof = (bytes: Uint8Array | undefined) => {
      const { value: heard } = readMidi(bytes ?? new Uint8Array(), 'out.mid');
      return value && heard && proofOf(heard, value.planned.song, value, true);
    };
    expect(proof(value?.bytes)?.violations).toEqual([]);
    const plain = compiledCue('  - {name: Flutes, track: Flutes, map: v.yaml}\n', song, maps).compiled;
    expect(proof(plain?.bytes)?.violations.length).toBeGreaterThan(0);
  });

  it('is heard so', () => {
    const [part] = value?.parts ?? [];
    const track = value?.tracks.get(1);
    const heard = part && track ? compiledToHear(part, 'Flutes', track).notes : [];
    for (const { velocity } of heard.slice(1, 5)) near(velocity, 100, 3 / 12);
    expect(heard[0]?.velocity).toBe(100);
  });

  it('has the rest of the dealing as the cue says it: from the bottom, or in turn', () => {
    const velocities = (extra: string) =>
      sent(compiled('v.yaml', extra).compiled?.bytes)
        .filter(({ tick }) => tick === 5760)
        .sort((a, b) => b.pitch - a.pitch)
        .map(({ velocity }) => velocity);
    const [half = 0, quarter = 0, third = 0] = [6, 3, 4].map((n) => Math.round(100 * (n / 12) ** 0.25));
    expect(velocities('players: [6, 6]')).toEqual([quarter, quarter, half]);
    expect(velocities('by: bottom-up, players: [6, 6]')).toEqual([half, quarter, quarter]);
    expect(velocities('by: in-turn, players: 12')).toEqual([third, third, third]);
  });
});

describe('a divided part that is loud by a controller', () => {
  it('is turned down by the mean power of the chord, from where it is struck', () => {
    const found = sent(compiled('c.yaml', 'players: [6, 6]').compiled?.bytes);
    expect(found.map(({ velocity }) => velocity)).toEqual(found.map(() => 100));
    for (const { tick, volume } of found) {
      const mean = tick === 3840 ? 3 / 12 : tick === 5760 ? (6 + 3 + 3) / 3 / 12 : 1;
      near(volume, 127, mean);
    }
  });

  it('so too where the chord is struck early, and on top of a level and of a recorded volume', () => {
    const recorded = songOf([trackOf(notes, [controllerAt(0, 7, 100), controllerAt(4000, 7, 80)], 'Flutes')]);
    const yaml =
      '  - {name: Flutes, track: Flutes, map: c.yaml, level: -3, timing: {compensate: true}, divide: {players: [6, 6]}}\n';
    const found = sent(compiledCue(yaml, recorded, maps).compiled?.bytes);
    // 50 ms at 120 quarters a minute are 48 ticks.
    expect(found[1]?.tick).toBe(3840 - 48);
    const level = 10 ** (-3 / 10);
    for (const { tick, volume } of found) {
      const mean = tick === 3792 ? 1 / 4 : tick === 5712 ? 1 / 3 : 1;
      near(volume, tick < 4000 ? 100 : 80, mean * level);
    }
  });

  it('stays as it was where nothing is divided', () => {
    const lone = songOf([trackOf(chord(1920, [60]), [controllerAt(0, 1, 90)], 'Flutes')]);
    const plain = compiledCue('  - {name: Flutes, track: Flutes, map: c.yaml}\n', lone, maps).compiled;
    expect(compiled('c.yaml', 'players: [6, 6]', lone).compiled?.bytes).toEqual(plain?.bytes);
  });
});

describe('the players of a divided part', () => {
  it('are those of its desks: against a recording of three, twelve are 6 dB louder', () => {
    const three = { 'v.yaml': { ...byVelocity, players: 3 } };
    const yaml = '  - {name: Flutes, track: Flutes, map: v.yaml, level: -12, divide: {players: [6, 6]}}\n';
    const { compiled: value } = compiledCue(yaml, song, three);
    for (const { volume } of sent(value?.bytes)) near(volume, 127, 10 ** (-12 / 10) * (12 / 3));
  });

  it('are told where they are fewer than the notes of a chord', () => {
    const { diagnostics } = compiled('v.yaml', 'players: [1, 2]');
    expect(diagnostics).toMatchObject([{ code: 'few-players', place: { bar: 3, beat: 1 } }]);
    expect(diagnostics[0]?.message).toContain('4 notes, more than its desks have players (3)');
  });

  it('may not be said beside it', () => {
    expect(() =>
      cueOf('parts:\n  - {name: A, track: 1, map: a.yaml, players: 4, divide: {players: [2, 2]}}\n'),
    ).toThrow('beside');
  });
});

describe('a layer of a divided part', () => {
  it('is as much softer as its notes have fewer players', () => {
    const yaml =
      '  - {name: Flutes, track: Flutes, map: c.yaml, divide: {players: [6, 6]}, layers: [{name: bite, map: v.yaml}]}\n';
    const { song: out } = compiledCue(yaml, song, maps);
    const velocities = eventsOf(out?.tracks[1]).flatMap(({ event }) =>
      event.type === 'noteOn' && event.noteNumber >= 24 ? [[event.noteNumber, event.velocity] as const] : [],
    );
    const quarter = Math.round(100 * 0.25 ** 0.25);
    expect(velocities.slice(0, 5).map(([, velocity]) => velocity)).toEqual([100, ...Array(4).fill(quarter)]);
  });
});

it.each(['v.yaml', 'c.yaml'])(
  'the balance hears a chord of all players as loud as a note of all: %s',
  (map) => {
    const both = songOf([
      trackOf(notes, [controllerAt(0, 1, 90)], 'Flutes'),
      trackOf(notes, [controllerAt(0, 1, 90)], 'Oboes'),
    ]);
    const yaml = `  - {name: Flutes, track: Flutes, map: ${map}, divide: {players: [6, 6]}}\n  - {name: Oboes, track: Oboes, map: ${map}}\n`;
    const { compiled: value } = compiledCue(yaml, both, maps);
    const jobs = value?.parts.map((one, index) => ({
      compiled: one,
      name: ['Flutes', 'Oboes'][index] ?? '',
    }));
    const sections = value && jobs ? sectionsOfJobs(value.planned.song, value.tracks, jobs) : [];
    const bars = value ? balanceByBar(value.planned.song, sections) : [];
    expect(bars).toHaveLength(4);
    for (const {
      sections: [flutes, oboes],
    } of bars)
      expect(Math.abs((flutes?.loudness ?? 0) - (oboes?.loudness ?? 99))).toBeLessThan(0.3);
  },
);
