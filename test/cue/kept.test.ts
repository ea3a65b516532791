import { describe, expect, it } from 'vitest';
import { mapOf } from '../support/map.js';
import { controllerAt, type Timed } from '../support/song.js';
import { levelled, take } from './kept.js';
import { compiledCue, controllerOf, notesOf } from './support.js';

const [p, f] = [40, 100];
/** A library that listens to controller 2. */
const library = levelled(2, `{p: ${p}, f: ${f}}`);
const kept = (
  others: readonly Timed[],
  { dynamics = '{source: keep}', map = library, more = '', head = '' } = {},
) =>
  compiledCue(
    `  - {name: Flutes, track: 1, map: a.yaml, dynamics: ${dynamics}${more}}\n`,
    take(others),
    { 'a.yaml': map },
    head,
  );
/** By the identity table piano is 45 and forte 90. */
const swell = (controller: number) =>
  [45, 60, 90, 45].map((value, index) => controllerAt(index * 300, controller, value));
const codes = ({ diagnostics }: ReturnType<typeof kept>) => diagnostics.map(({ code }) => code);

describe('recorded dynamics that are kept', () => {
  it("become the library's controller, whichever was recorded", () => {
    for (const recorded of [1, 2, 11]) {
      const { song, diagnostics } = kept(swell(recorded));
      expect(diagnostics).toEqual([]);
      const [piano, between, forte, again] = controllerOf(song?.tracks[0], 2).map(([, value]) => value);
      expect([piano, forte, again]).toEqual([p, f, p]);
      expect(between).toBeGreaterThan(p);
      expect(between).toBeLessThan(f);
      if (recorded !== 2) expect(controllerOf(song?.tracks[0], recorded)).toEqual([]);
    }
  });

  it('are found where the most moves', () => {
    const still = controllerAt(0, 1, 127);
    const { song } = kept([still, ...swell(11)]);
    expect(controllerOf(song?.tracks[0], 2)).toHaveLength(4);
    expect(controllerOf(song?.tracks[0], 1)).toEqual([[0, 127]]);
  });

  it('are what the cue says they are, on the controller and by the levels that it says', () => {
    const others = [...swell(11), controllerAt(0, 20, 10), controllerAt(500, 20, 30)];
    const { song, diagnostics } = kept(others, {
      dynamics: '{source: keep, from: 20, levels: {p: 10, f: 30}}',
    });
    expect(diagnostics).toEqual([]);
    expect(controllerOf(song?.tracks[0], 2)).toEqual([
      [0, p],
      [500, f],
    ]);
    expect(controllerOf(song?.tracks[0], 11)).toHaveLength(4);
  });

  it('are the velocity of a library in which nothing is loud by a controller', () => {
    const struck = mapOf('articulations:\n  hit: {loudness: velocity}\nrules:\n  - use: hit\n');
    const { song, diagnostics } = kept(swell(1), { map: struck });
    expect(diagnostics).toEqual([]);
    expect(notesOf(song?.tracks[0]).map(([, , , velocity]) => velocity)).toEqual([45, 45, 45]);
    const { song: earlier } = kept(
      [controllerAt(0, 1, 30), controllerAt(1200, 1, 90), controllerAt(2200, 1, 0)],
      { map: struck },
    );
    expect(notesOf(earlier?.tracks[0]).map(([, , , velocity]) => velocity)).toEqual([30, 90, 1]);
  });

  it('leave notes as they were played where nothing was recorded before them', () => {
    const struck = mapOf('articulations:\n  hit: {loudness: velocity}\nrules:\n  - use: hit\n');
    const { song } = kept([controllerAt(1200, 1, 90), controllerAt(1300, 1, 80)], { map: struck });
    expect(notesOf(song?.tracks[0]).map(([, , , velocity]) => velocity)).toEqual([60, 80, 80]);
  });

  it('bring their low byte along: 33 of 1 becomes 34 of 2 (MIDI 1.0: low bytes are 32 above)', () => {
    const fine = [
      [0, 1, 45],
      [0, 33, 64],
      [300, 1, 60],
      [300, 33, 32],
      [600, 33, 96],
    ] as const;
    const { song } = kept(fine.map(([tick, controller, value]) => controllerAt(tick, controller, value)));
    const [high, low] = [controllerOf(song?.tracks[0], 2), controllerOf(song?.tracks[0], 34)];
    expect(high.map(([tick]) => tick)).toEqual([0, 300]);
    expect(low.map(([tick]) => tick)).toEqual([0, 300, 600]);
    expect(controllerOf(song?.tracks[0], 33)).toEqual([]);
    const values = [0, 1].map((at) => (high[at]?.[1] ?? 0) + (low[at]?.[1] ?? 0) / 128);
    // half a step over piano, and a quarter over 60, in the library's steeper scale
    expect(values[0]).toBeGreaterThan(p + 0.5);
    expect(values[0]).toBeLessThan(p + 1.5);
    const coarse = controllerOf(kept(swell(1)).song?.tracks[0], 2)[1]?.[1] ?? 0;
    expect(Math.abs((values[1] ?? 0) - coarse)).toBeLessThan(1.5);
    expect(low[2]?.[1]).toBeGreaterThan(low[1]?.[1] ?? 127);
  });

  it('keep both bytes as they are where the library is as the recording', () => {
    const same = levelled(1, '{p: 45, f: 90}');
    const fine = [
      controllerAt(0, 1, 45),
      controllerAt(0, 33, 64),
      controllerAt(300, 1, 127),
      controllerAt(300, 33, 9),
    ];
    const { song } = kept(fine, { map: same });
    expect([controllerOf(song?.tracks[0], 1), controllerOf(song?.tracks[0], 33)]).toEqual([
      [
        [0, 45],
        [300, 127],
      ],
      [
        [0, 64],
        [300, 9],
      ],
    ]);
  });
});

describe('recorded dynamics that would be lost', () => {
  it('are an error where the controller that is named was not recorded', () => {
    expect(kept(swell(1), { dynamics: '{source: keep, from: 11}' }).diagnostics).toMatchObject([
      { code: 'no-curve', severity: 'error', hint: 'controllers of dynamics that were recorded: 1' },
    ]);
  });

  it("are an error where the library's own controller moves too, until the cue says which counts", () => {
    const both = [...swell(1), controllerAt(0, 2, 50), controllerAt(400, 2, 60)];
    expect(kept(both).diagnostics).toMatchObject([
      { code: 'two-curves', severity: 'error', hint: expect.stringContaining('from: 1}, or from: 2') },
    ]);
    for (const from of [1, 2])
      expect(codes(kept(both, { dynamics: `{source: keep, from: ${from}}` }))).toEqual([]);
  });

  it('are told where a part has none, and where the cue keeps none but the library listens elsewhere', () => {
    expect(codes(kept([]))).toEqual(['nothing-to-keep']);
    const { diagnostics } = compiledCue('  - {name: F, track: 1, map: a.yaml}\n', take(swell(1)), {
      'a.yaml': library,
    });
    expect(diagnostics).toMatchObject([{ code: 'curve-unheard', severity: 'warning' }]);
  });

  it('are not taken from the controller of levels', () => {
    const head = 'level-controller: 11\n';
    const more = ', level: -6';
    const { diagnostics } = kept(swell(11), { dynamics: '{source: keep, from: 11}', more, head });
    expect(diagnostics).toMatchObject([{ code: 'controller-taken', severity: 'error' }]);
    expect(codes(kept(swell(11), { more, head }))).toEqual(['nothing-to-keep']);
  });
});
