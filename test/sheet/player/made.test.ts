import tonejs from '@tonejs/midi';
import { describe, expect, it } from 'vitest';
import { clockOf } from '../../../src/midi/index.js';
import { playerData } from '../../../src/sheet/player/index.js';
import { bytesOf, songOf, type Timed, tempoAt, trackOf } from '../../support/song.js';
import { sheetNote, sheetPart } from '../page/support.js';

function signatureAt(tick: number, numerator: number): Timed {
  const event = {
    type: 'timeSignature',
    meta: true,
    numerator,
    denominator: 4,
    metronome: 24,
    thirtyseconds: 8,
  };
  return { tick, event: event as Timed['event'] };
}

/** 3/4, from bar 3 on 4/4; 120 a minute, in the middle of bar 3 90, in bar 4 61.7. */
const tracks = [
  trackOf(
    [
      { tick: 0, end: 400, pitch: 60 },
      { tick: 3000, end: 3400, pitch: 60 },
      { tick: 4900, end: 8000, pitch: 60 },
    ],
    [signatureAt(0, 3), signatureAt(2880, 4), tempoAt(0, 120), tempoAt(3840, 90), tempoAt(5000, 61.7)],
  ),
];
const clock = clockOf(songOf(tracks), 1);
/** Another reader of tempo maps. */
const { header } = new tonejs.Midi(bytesOf(tracks));
const msOf = (tick: number) => 1000 * header.ticksToSeconds(tick);
const starts = [0, 1440, 2880, 4800, 6720];

describe('what a page tells its player', () => {
  const notes = [
    sheetNote('n0-0', 0, { heardMs: 0, place: { bar: 1, beat: 1 } }),
    sheetNote('n0-1', 3000, { heardMs: msOf(3000) + 90, place: { bar: 3, beat: 1 } }),
    // early: it belongs to bar 4, and is heard in bar 3
    sheetNote('n0-2', 4780, { heardMs: msOf(4780), place: { bar: 4, beat: 1 } }),
  ];
  const sheet = { clock, parts: [sheetPart({ notes })] };

  it('has every bar and beat by the tempo map, as another reader reads it', () => {
    const { bars } = playerData(sheet, { fromMs: 0, lengthMs: msOf(6800) });
    expect(bars.map(({ bar }) => bar)).toEqual([1, 2, 3, 4, 5]);
    expect(bars.map(({ beats }) => beats.length)).toEqual([3, 3, 4, 4, 4]);
    for (const { bar, beats, toMs } of bars) {
      const start = starts[bar - 1] ?? 0;
      for (const [beat, ms] of beats.entries())
        expect(Math.abs(ms - msOf(start + 480 * beat)), `${bar}.${beat + 1}`).toBeLessThan(0.06);
      const next = starts[bar] ?? start + 1920;
      expect(Math.abs(toMs - msOf(next))).toBeLessThan(0.06);
    }
  });

  it('counts from where the sound begins', () => {
    const fromMs = msOf(2880);
    const told = playerData(sheet, { fromMs, lengthMs: msOf(4800) - fromMs });
    expect(told.bars.map(({ bar }) => bar)).toEqual([3]);
    expect(told.bars[0]?.beats[0]).toBe(0);
    const [first, second, third] = told.notes[0] ?? [];
    expect(first).toEqual([-fromMs, -1]);
    expect(second?.[0]).toBeCloseTo(msOf(3000) + 90 - fromMs, 1);
    expect([second?.[1], third?.[1]]).toEqual([0, -1]);
  });

  it('has the bar of a note by where it is written, not by when it is heard', () => {
    const { notes: told } = playerData(sheet, { fromMs: 0, lengthMs: msOf(8000) });
    expect(told[0]?.map(([, bar]) => bar)).toEqual([0, 2, 3]);
    expect(told[0]?.[2]?.[0]).toBeCloseTo(msOf(4780), 1);
  });

  it('has no bars where the music has none, or more than anybody means', () => {
    const frames = clockOf(songOf([trackOf([])], { smpte: { framesPerSecond: 25, ticksPerFrame: 40 } }), 1);
    expect(playerData({ clock: frames, parts: [] }, { fromMs: 0, lengthMs: 5000 }).bars).toEqual([]);
    const mad = clockOf(songOf([trackOf([], [tempoAt(0, 6e7)])]), 1);
    expect(playerData({ clock: mad, parts: [] }, { fromMs: 0, lengthMs: 5000 }).bars).toEqual([]);
  });
});
