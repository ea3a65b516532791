import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Clock } from '../../src/midi/clock/clock.js';
import type { Duration } from '../../src/midi/duration.js';
import { draws } from '../support/draws.js';
import { plainClock } from './clock.js';
import { compensated as compensate, type LateNote } from './late-notes.js';

const ms = (value: number): Duration => ({ unit: 'ms', ms: value });

/** A note; struck alone, unless it says otherwise. */
const note = (onset: number, release: number, late: number, change: Partial<LateNote> = {}): LateNote => ({
  onset,
  release,
  pitch: 60,
  channel: 0,
  speaksAfter: ms(late),
  struck: onset,
  ...change,
});

// 500 ms and 480 ticks to the quarter: 96 ticks are 100 ms
const clock = plainClock(480);

describe('compensate', () => {
  it('starts each note earlier by what its sample needs, and leaves its release where it was played', () => {
    const result = compensate([note(960, 1400, 100), note(1440, 1900, 50, { pitch: 62 })], clock);
    expect(result).toEqual({ onsets: [864, 1392], releases: [1400, 1900], clamped: [] });
  });

  it('goes through the tempo map', () => {
    const slower = plainClock(480, [
      [0, 120],
      [960, 60],
    ]);
    // 12 ticks at 60 bpm are 25 ms; 72 at 120 bpm are 75 ms
    expect(compensate([note(972, 1400, 100)], slower).onsets).toEqual([888]);
  });

  it('takes fractions of a whole note in ticks', () => {
    expect(
      compensate(
        [note(960, 1400, 0, { speaksAfter: { unit: 'whole', numerator: 1, denominator: 32 } })],
        clock,
      ).onsets,
    ).toEqual([900]);
  });

  it('clamps at the start of the file, reports it, and sounds for as long as was played', () => {
    const result = compensate([note(48, 528, 150)], clock);
    expect(result.onsets).toEqual([0]);
    // 100 ms late: heard from 150 ms on, as long as played (500 ms)
    expect(result.releases).toEqual([624]);
    expect(result.clamped).toEqual([{ index: 0, wantedMs: -100, gotMs: 0, reason: 'file-start' }]);
  });

  it('stays a tick behind the note before it, so that a switch can stand between', () => {
    const slow = note(1060, 1500, 140, { pitch: 64 });
    const first = note(1000, 1050, 0);
    const held = compensate([first, slow], clock);
    expect(held.onsets).toEqual([1000, 1001]);
    expect(held.clamped.map(({ index, reason }) => [index, reason])).toEqual([[1, 'note-before']]);
    // on another channel nothing is in its way
    expect(compensate([first, { ...slow, channel: 1 }], clock).onsets).toEqual([1000, 926]);
  });

  it('releases a repeated pitch before it is struck again', () => {
    const result = compensate([note(960, 1150, 100), note(1200, 1400, 100)], clock);
    expect(result.onsets).toEqual([864, 1104]);
    expect(result.releases).toEqual([1104, 1400]);
  });

  it('leaves a tick between two strikes of one pitch', () => {
    const result = compensate([note(1000, 1010, 0), note(1050, 1100, 300)], clock);
    expect(result.onsets).toEqual([1000, 1001]);
    expect(result.releases[0]).toBe(1001);
    const routed = compensate([note(1000, 1010, 0, { channel: 1 }), note(1050, 1100, 300)], clock);
    expect(routed.onsets).toEqual([1000, 1001]);
    expect(routed.clamped.map(({ reason }) => reason)).toEqual(['same-pitch']);
  });

  it('does not hold the notes of a chord back by each other', () => {
    const result = compensate([note(960, 1400, 50), note(960, 1400, 100, { pitch: 64 })], clock);
    expect(result.onsets).toEqual([912, 864]);
    expect(result.clamped).toEqual([]);
  });

  it('holds a chord back as one, so that it keeps its spread', () => {
    const chord = [1060, 1066, 1078].map((onset, at) =>
      note(onset, 1500, 140, { pitch: 64 + at, struck: 2 }),
    );
    const result = compensate([note(1000, 1050, 0), ...chord], clock);
    expect(result.onsets).toEqual([1000, 1001, 1007, 1019]);
    expect(result.clamped.map(({ reason }) => reason)).toEqual(['note-before', 'note-before', 'note-before']);
  });

  it('hears a chord together that is held back, though its notes speak after different times', () => {
    const chord = [140, 40].map((late, at) => note(1060, 1500, late, { pitch: 64 + at, struck: 2 }));
    const [, slow = 0, quick = 0] = compensate([note(1000, 1050, 0), ...chord], clock).onsets;
    expect(slow).toBe(1001);
    expect(quick - slow).toBe(59); // it would be 96 ticks later, but none starts later than it was played
    expect(quick).toBeLessThanOrEqual(1060);
  });

  it('leaves everything as it is where nothing speaks late, overlaps of one pitch too', () => {
    const notes = [note(0, 500, 0), note(400, 700, 0), note(400, 800, 0), note(700, 700, 0)];
    expect(compensate(notes, clock)).toEqual({
      onsets: [0, 400, 400, 700],
      releases: [500, 700, 800, 700],
      clamped: [],
    });
  });
});

/** Random tempo maps: 20 to 300 bpm, changes anywhere. */
const clocks: fc.Arbitrary<Clock> = fc
  .tuple(
    fc.constantFrom(96, 480, 960),
    fc.array(fc.tuple(fc.integer({ min: 1, max: 900 }), fc.integer({ min: 20, max: 300 })), {
      maxLength: 12,
    }),
    fc.integer({ min: 20, max: 300 }),
  )
  .map(([ppq, changes, first]) => {
    const tempi: [number, number][] = [[0, first]];
    for (const [gap, bpm] of changes) tempi.push([(tempi.at(-1)?.[0] ?? 0) + gap, bpm]);
    return plainClock(ppq, tempi);
  });

const lines: fc.Arbitrary<readonly LateNote[]> = fc
  .array(
    fc.record({
      gap: fc.oneof(fc.integer({ min: 0, max: 30 }), fc.integer({ min: 0, max: 600 })),
      length: fc.integer({ min: 1, max: 700 }),
      pitch: fc.integer({ min: 60, max: 63 }),
      channel: fc.integer({ min: 0, max: 1 }),
      late: fc.oneof(
        fc.integer({ min: 0, max: 250 }).map((value) => ms(value)),
        fc.constant<Duration>({ unit: 'whole', numerator: 1, denominator: 32 }),
      ),
    }),
    { maxLength: 40 },
  )
  .map((list) => {
    let onset = 0;
    return list.map(({ gap, length, pitch, channel, late }) => {
      onset += gap;
      return { onset, release: onset + length, pitch, channel, speaksAfter: late, struck: onset };
    });
  });

/** The longest tick there is at or between two places, in milliseconds. */
const tickMs = (at: Clock, from: number, to: number) => {
  let longest = 0;
  for (let tick = Math.max(0, from - 1); tick <= to; tick += 1) {
    longest = Math.max(longest, at.ms(tick + 1) - at.ms(tick));
  }
  return longest;
};

describe('over random tempo maps and lines', () => {
  const each = (check: (notes: readonly LateNote[], at: Clock) => void) =>
    fc.assert(fc.property(lines, clocks, check), { seed: 41, numRuns: draws(400) });

  it('hears every note where it was played, within a tick, unless it says otherwise', () => {
    let heard = 0;
    each((notes, at) => {
      const result = compensate(notes, at);
      const clamped = new Set(result.clamped.map(({ index }) => index));
      notes.forEach(({ onset, speaksAfter }, index) => {
        const start = result.onsets[index] ?? 0;
        if (clamped.has(index)) return;
        heard += 1;
        if (speaksAfter.unit === 'whole') {
          expect(start + (at.ticksPerWhole ?? 0) / 32).toBe(onset);
          return;
        }
        const error = Math.abs(at.ms(start) + speaksAfter.ms - at.ms(onset));
        expect(error).toBeLessThanOrEqual(tickMs(at, start, start));
      });
    });
    expect(heard).toBeGreaterThan(draws(700));
  });

  it('keeps what is clamped late, never early, and says how late', () => {
    each((notes, at) => {
      const result = compensate(notes, at);
      for (const { index, wantedMs, gotMs } of result.clamped) {
        const start = result.onsets[index] ?? 0;
        expect(gotMs).toBe(at.ms(start));
        expect(gotMs).toBeGreaterThan(wantedMs);
        expect(start).toBeLessThanOrEqual(notes[index]?.onset ?? 0);
      }
    });
  });

  it('keeps the order on each channel, and a place for a switch between any two onsets', () => {
    each((notes, at) => {
      const { onsets } = compensate(notes, at);
      notes.forEach((later, j) => {
        notes.slice(0, j).forEach((earlier, i) => {
          if (earlier.channel !== later.channel || earlier.onset === later.onset) return;
          expect((onsets[j] ?? 0) - (onsets[i] ?? 0)).toBeGreaterThanOrEqual(1);
        });
      });
    });
  });

  it('releases every pitch before it is struck again, where it was so as it was played', () => {
    each((notes, at) => {
      const { onsets, releases } = compensate(notes, at);
      notes.forEach((later, j) => {
        expect(releases[j]).toBeGreaterThan(onsets[j] ?? 0);
        notes.slice(0, j).forEach((earlier, i) => {
          const same = earlier.channel === later.channel && earlier.pitch === later.pitch;
          if (!same || earlier.onset === later.onset || earlier.release > later.onset) return;
          const moved = onsets[i] !== earlier.onset || onsets[j] !== later.onset;
          if (moved) expect(releases[i]).toBeLessThanOrEqual(onsets[j] ?? 0);
        });
      });
    });
  });

  it('sounds for as long as was played, within a tick, unless the pitch is struck again', () => {
    each((notes, at) => {
      const result = compensate(notes, at);
      notes.forEach(({ onset, release, pitch, channel, speaksAfter }, index) => {
        const [start, end] = [result.onsets[index] ?? 0, result.releases[index] ?? 0];
        const isShortened = notes.some(
          (other, at) =>
            at > index && other.pitch === pitch && other.channel === channel && result.onsets[at] === end,
        );
        if (isShortened || speaksAfter.unit !== 'ms') return;
        const sounding = at.ms(end) - (at.ms(start) + speaksAfter.ms);
        const error = Math.abs(sounding - (at.ms(release) - at.ms(onset)));
        // half a tick for the onset's rounding and half a tick for the release's
        expect(error).toBeLessThanOrEqual(Math.max(tickMs(at, start, start), tickMs(at, end, end)) + 1e-6);
      });
    });
  });
});
