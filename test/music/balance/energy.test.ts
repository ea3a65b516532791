import { describe, expect, it } from 'vitest';
import { compileCue } from '../../../src/cue/index.js';
import type { ArticulationMap } from '../../../src/map/types.js';
import { balanceByBar, balanceText } from '../../../src/music/inspections/balance.js';
import { sectionsOfJobs } from '../../../src/music/inspections/voices.js';
import { cueOf } from '../../support/cue.js';
import { mapOf } from '../../support/map.js';
import { controllerAt, songOf, type Timed, trackOf } from '../../support/song.js';

const line = (pitch: number, velocity = 60) =>
  Array.from({ length: 8 }, (_, beat) => ({ tick: beat * 480, end: beat * 480 + 400, pitch, velocity }));
const song = (others: readonly Timed[] = []) =>
  songOf([trackOf(line(76), [], 'Flute'), trackOf(line(60), others, 'Horns')]);
/** Loud by controller 2, whose 40 is p and 100 is f. */
const wheel = mapOf(
  'players: 4\ndynamics: {controller: 2, levels: {p: 40, f: 100}}\narticulations:\n  long: {loudness: controller}\nrules:\n  - use: long\n',
);
const struck = mapOf('players: 4\narticulations:\n  hit: {loudness: velocity}\nrules:\n  - use: hit\n');

function balanceOf(
  horns: string,
  maps: Readonly<Record<string, ArticulationMap>>,
  others: readonly Timed[] = [],
) {
  const cue = cueOf(
    `parts:\n  - {name: Flute, track: Flute, map: flute.yaml}\n  - {name: Horns, track: Horns, ${horns}}\n`,
  );
  const material = { song: song(others), maps: new Map(Object.entries({ 'flute.yaml': struck, ...maps })) };
  const { value } = compileCue(cue, material);
  if (!value) throw new Error('the cue does not compile');
  const jobs = value.parts.map((compiled, index) => {
    const job = value.planned.jobs[index];
    return { compiled, name: job?.name ?? '', ...(job?.layer === undefined ? {} : { layer: job.layer }) };
  });
  const [bar] = balanceByBar(value.planned.song, sectionsOfJobs(value.planned.song, value.tracks, jobs));
  const found = bar?.sections.find(({ name }) => name === 'Horns');
  if (!found) throw new Error('the horns sound');
  return found;
}

const maps = { 'w.yaml': wheel, 's.yaml': struck };

// Half a step of the level's controller at that value (40 · log10(value/127)) is as near as it can be.
const nearest = (value: number) => 40 * Math.log10((value + 0.5) / value);

describe('the balance of a cue', () => {
  it('moves by 3 dB where the level of a part moves by 3 dB, for parts loud by velocity or by controller', () => {
    for (const map of ['map: s.yaml', 'map: w.yaml, dynamics: {source: keep, from: 2}']) {
      const others = [controllerAt(0, 2, 60), controllerAt(900, 2, 80)];
      const at = (level: number) => balanceOf(`${map}, level: ${level}`, maps, others).loudness;
      expect(Math.abs(at(-3) - at(-6) - 3)).toBeLessThan(2 * nearest(89));
      expect(Math.abs(at(0) - at(-3) - 3)).toBeLessThan(2 * nearest(106));
    }
  });

  it('has the power of players: half as many are 3 dB softer', () => {
    const at = (players: number) => balanceOf(`map: s.yaml, players: ${players}`, maps).loudness;
    expect(Math.abs(at(4) - at(2) - 10 * Math.log10(2))).toBeLessThan(2 * nearest(106));
  });

  it('has the power of layers: as strong a library again is 3 dB louder', () => {
    const alone = balanceOf('map: s.yaml', maps).loudness;
    const doubled = balanceOf('map: s.yaml, layers: [{name: x, map: s.yaml}]', maps).loudness;
    expect(doubled - alone).toBeCloseTo(10 * Math.log10(2), 6);
  });

  it('is not moved by seats, whose two sides keep their power (RP-036)', () => {
    const at = (seat: number) => balanceOf(`map: s.yaml, seat: ${seat}`, maps).loudness;
    expect(at(-0.8)).toBe(at(0.4));
  });

  it('goes by what the map says makes notes loud, and by its levels', () => {
    const others = [controllerAt(0, 2, 40), controllerAt(4000, 2, 100)];
    // p is velocity 45 and f 90 by the scale of marks: 40 · log10 of their ratio
    expect(balanceOf('map: w.yaml', maps, others).level).toBeCloseTo(2, 3);
    expect(balanceOf('map: w.yaml', maps, [controllerAt(0, 2, 100)]).level).toBeCloseTo(5, 3);
    expect(balanceOf('map: s.yaml', maps, others).level).toBeCloseTo(3, 6);
  });
});

describe('the balance of measured libraries', () => {
  const measured = (level: number) =>
    mapOf(
      `reference-level: ${level}\nplayers: 4\narticulations:\n  hit: {loudness: velocity}\nrules:\n  - use: hit\n`,
    );
  const two = (flute: ArticulationMap, horns: ArticulationMap, keys = '') => {
    const cue = cueOf(
      `parts:\n  - {name: Flute, track: Flute, map: f.yaml${keys}}\n  - {name: Horns, track: Horns, map: h.yaml${keys}}\n`,
    );
    const { value } = compileCue(cue, {
      song: song(),
      maps: new Map([
        ['f.yaml', flute],
        ['h.yaml', horns],
      ]),
    });
    if (!value) throw new Error('the cue does not compile');
    const jobs = value.parts.map((compiled, index) => ({
      compiled,
      name: compiled.part.trackName,
      ...value.planned.jobs[index],
    }));
    const sections = sectionsOfJobs(value.planned.song, value.tracks, jobs);
    const bars = balanceByBar(value.planned.song, sections);
    return { bar: bars[0], text: balanceText(bars, sections) };
  };
  const loudnessIn = ({ bar }: ReturnType<typeof two>) => bar?.sections.map(({ loudness }) => loudness) ?? [];

  it('is what was measured at mf, less what they are played softer', () => {
    const found = two(measured(-32), measured(-27));
    // Played at velocity 60, which is mp; mf is 75.
    const softer = 40 * Math.log10(60 / 75);
    const [flute = 0, horns = 0] = loudnessIn(found);
    expect(flute).toBeCloseTo(-32 + softer, 6);
    expect(horns).toBeCloseTo(-27 + softer, 6);
    expect(found.bar?.covered).toMatchObject([{ name: 'Flute', by: 'Horns' }]);
    expect(found.bar?.covered[0]?.excess).toBeCloseTo(5, 6);
    expect(found.text).toContain('as their libraries were measured');
  });

  it('is even where levels are', () => {
    const [flute = 0, horns = 0] = loudnessIn(two(measured(-32), measured(-20), ', level: -3'));
    // Half a step of each part's controller.
    expect(Math.abs(flute - horns)).toBeLessThan(nearest(53) + nearest(106));
  });

  it('is by strengths where one was not measured, of which the levels of others do not change a thing, and says so', () => {
    const found = two(struck, measured(-20));
    expect(loudnessIn(found)).toEqual(loudnessIn(two(struck, struck)));
    expect(found.text).toContain('not as measured, since there is no reference-level for Flute');
    expect(two(struck, struck).text).not.toContain('measured');
    const cue = (level: string) => two(measured(-30), struck, level);
    const [flute = 0] = loudnessIn(cue(', level: -3'));
    const [before = 0] = loudnessIn(two(struck, struck, ', level: -3'));
    expect(flute).toBeCloseTo(before, 6);
  });
});
