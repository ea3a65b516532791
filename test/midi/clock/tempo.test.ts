import tonejs from '@tonejs/midi';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockOf } from '../../../src/midi/clock/index.js';
import { draws } from '../../support/draws.js';
import { endOfTrack, midi, quantity } from '../read/bytes.js';
import { type Meta, metaTrack, songWith, tempo } from './songs.js';

const { Midi } = tonejs;

const clockWith = (events: readonly Meta[], division = 480) => clockOf(songWith([events], { division }), 1);

/** By definition: each tick takes its tempo's microseconds over the ticks of a quarter. Whole numbers until the end. */
function exactMs(
  changes: readonly (readonly [tick: number, microseconds: number])[],
  ppq: number,
  tick: number,
): number {
  let sum = 0n;
  changes.forEach(([from, microseconds], index) => {
    const to = Math.min(tick, changes[index + 1]?.[0] ?? tick);
    if (to > from) sum += BigInt(to - from) * BigInt(microseconds);
  });
  return Number(sum) / 1000 / ppq;
}

describe('ticks and real time', () => {
  it('a 1/16 note is 125 ms at 120 bpm and 250 ms at 60', () => {
    expect(clockWith([tempo(0, 500_000)]).ms(120)).toBe(125);
    expect(clockWith([tempo(0, 1_000_000)]).ms(120)).toBe(250);
    expect(clockWith([tempo(0, 1_000_000)], 96).ms(24)).toBe(250);
    expect(clockWith([tempo(0, 1_000_000)], 32_767).ms(32_767)).toBe(1000);
  });

  it('120 bpm holds until the file says otherwise (Standard MIDI File 1.0)', () => {
    expect(clockWith([]).ms(480)).toBe(500);
    const late = clockWith([tempo(960, 1_000_000)]);
    expect(late.ms(960)).toBe(1000);
    expect(late.ms(1440)).toBe(2000);
  });

  it('a note across a tempo change is the sum of its parts', () => {
    const clock = clockWith([tempo(0, 500_000), tempo(480, 1_000_000), tempo(600, 250_000)]);
    // 240 ticks at 120 bpm, 120 at 60, 480 at 240.
    expect(clock.ms(1080) - clock.ms(240)).toBeCloseTo(250 + 250 + 250, 9);
  });

  it('of several tempos on one tick the last holds, in the order of the tracks', () => {
    expect(clockWith([tempo(0, 250_000), tempo(0, 1_000_000)]).ms(480)).toBe(1000);
    const song = songWith([[tempo(0, 250_000)], [tempo(0, 2_000_000)]]);
    expect(clockOf(song, 1).ms(480)).toBe(2000);
  });

  it('tempos of other lengths than three bytes count where they say enough', () => {
    expect(clockWith([{ tick: 0, type: 0x51, data: [0x0f, 0x42, 0x40, 0x99] }]).ms(480)).toBe(1000);
    expect(clockWith([{ tick: 0, type: 0x51, data: [0x0f, 0x42] }]).ms(480)).toBe(500);
  });

  it('a tempo of nothing is passed over', () => {
    expect(clockWith([tempo(0, 1_000_000), tempo(480, 0)]).ms(960)).toBe(2000);
  });

  it('are exact through thousands of tempos, and asked in any order', () => {
    const changes = Array.from({ length: 5000 }, (_, index): [number, number] => [
      index * 37,
      300_000 + ((index * 7919) % 700_001),
    ]);
    const clock = clockWith(changes.map(([tick, microseconds]) => tempo(tick, microseconds)));
    for (let tick = 0; tick < 190_000; tick += 613) {
      const scattered = (tick * 101) % 190_000;
      expect(clock.ms(scattered)).toBeCloseTo(exactMs(changes, 480, scattered), 6);
      expect(clock.tickAt(clock.ms(scattered))).toBe(scattered);
    }
  });

  const tempoChanges = fc
    .record({
      ppq: fc.constantFrom(1, 24, 96, 480, 960, 10_080),
      first: fc.integer({ min: 1, max: 0xffffff }),
      steps: fc.array(fc.tuple(fc.integer({ min: 1, max: 5000 }), fc.integer({ min: 1, max: 0xffffff })), {
        maxLength: 30,
      }),
    })
    .map(({ ppq, first, steps }) => {
      let tick = 0;
      const changes: [number, number][] = [[0, first]];
      for (const [step, microseconds] of steps) {
        tick += step;
        changes.push([tick, microseconds]);
      }
      return { ppq, changes };
    });

  it('come to what they are by definition, for any tempos', () => {
    fc.assert(
      fc.property(tempoChanges, fc.array(fc.nat(200_000)), ({ ppq, changes }, ticks) => {
        const clock = clockWith(
          changes.map(([tick, microseconds]) => tempo(tick, microseconds)),
          ppq,
        );
        for (const tick of ticks) {
          const exact = exactMs(changes, ppq, tick);
          expect(Math.abs(clock.ms(tick) - exact)).toBeLessThanOrEqual(1e-9 * Math.max(1, exact));
        }
      }),
      { seed: 300, numRuns: draws(300) },
    );
  });

  it('the tick nearest to a time is nearest', () => {
    fc.assert(
      fc.property(tempoChanges, fc.double({ min: -1000, max: 1e6, noNaN: true }), ({ ppq, changes }, ms) => {
        const clock = clockWith(
          changes.map(([tick, microseconds]) => tempo(tick, microseconds)),
          ppq,
        );
        const tick = clock.tickAt(ms);
        expect(Number.isInteger(tick) && tick >= 0).toBe(true);
        const off = (candidate: number) => Math.abs(clock.ms(candidate) - ms);
        expect(off(tick)).toBeLessThanOrEqual(off(tick + 1) + 1e-6);
        if (tick > 0) expect(off(tick)).toBeLessThanOrEqual(off(tick - 1) + 1e-6);
      }),
      { seed: 301, numRuns: draws(500) },
    );
  });

  it('agree with an independent reading of the file: the note times of @tonejs/midi', () => {
    fc.assert(
      fc.property(
        tempoChanges,
        fc.array(fc.tuple(fc.nat(4000), fc.integer({ min: 1, max: 4000 })), { maxLength: 20 }),
        ({ ppq, changes }, lengths) => {
          const tempos = metaTrack(changes.map(([tick, microseconds]) => tempo(tick, microseconds)));
          const notes = lengths.flatMap(([rest, held]) => [
            ...quantity(rest),
            0x90,
            60,
            80,
            ...quantity(held),
            0x80,
            60,
            64,
          ]);
          const file = midi([tempos, [...notes, ...endOfTrack]], { division: ppq });
          const clock = clockWith(
            changes.map(([tick, microseconds]) => tempo(tick, microseconds)),
            ppq,
          );
          for (const { ticks, durationTicks, time, duration } of new Midi(file).tracks.flatMap(
            (track) => track.notes,
          )) {
            const tolerance = 1e-9 * Math.max(1000, clock.ms(ticks + durationTicks));
            expect(Math.abs(clock.ms(ticks) - time * 1000)).toBeLessThanOrEqual(tolerance);
            const held = clock.ms(ticks + durationTicks) - clock.ms(ticks);
            expect(Math.abs(held - duration * 1000)).toBeLessThanOrEqual(tolerance);
          }
        },
      ),
      { seed: 302, numRuns: draws(200) },
    );
  });
});

describe('tempos of several tracks', () => {
  const tracks = [[tempo(0, 1_000_000)], [tempo(480, 250_000)]];

  it('all hold for all tracks in formats 0 and 1', () => {
    for (const format of [0, 1]) {
      const song = songWith(tracks, { format });
      for (const track of [1, 2]) expect(clockOf(song, track).ms(960)).toBe(1250);
    }
  });

  it('hold for their own track in format 2', () => {
    const song = songWith(tracks, { format: 2 });
    expect(clockOf(song, 1).ms(960)).toBe(2000);
    expect(clockOf(song, 2).ms(960)).toBe(750);
    expect(clockOf(song, 3).ms(960)).toBe(1000);
  });

  it('are those of the song that is asked, not of another', () => {
    const one = songWith([[tempo(0, 1_000_000)]]);
    const other = songWith([[tempo(0, 250_000)]]);
    expect([one, other, one].map((song) => clockOf(song, 1).ms(480))).toEqual([1000, 250, 1000]);
  });
});
