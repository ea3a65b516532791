import { describe, expect, it } from 'vitest';
import { smpteClock } from '../../../src/midi/clock/smpte.js';
import { joinBars, placed, runsWhere } from '../../../src/music/register/runs.js';
import { clock, note } from '../voicing/support.js';

const line = (...pitches: number[]) =>
  placed(
    pitches.map((pitch, index) => note(pitch, index * 1000, (index + 1) * 1000)),
    clock,
  );
const high = ({ pitch }: { pitch: number }) => pitch >= 70;

describe('successive bars', () => {
  it('are told where something holds for most of each', () => {
    // two notes to a bar; the fourth bar holds half
    const runs = runsWhere(line(70, 72, 71, 71, 60, 60, 70, 60, 75, 75, 75, 75), high, 2);
    expect(runs.map(({ bars }) => bars)).toEqual([
      { from: 1, to: 2 },
      { from: 5, to: 6 },
    ]);
    expect(runs[1]?.notes).toEqual([8, 9, 10, 11]);
  });

  it('are not told where they are few, and go on to where a long note ends', () => {
    expect(runsWhere(line(70, 70, 60), high, 2)).toEqual([]);
    const long = placed([note(72, 0, 6000)], clock);
    expect(runsWhere(long, high, 3).map(({ bars }) => bars)).toEqual([{ from: 1, to: 3 }]);
  });

  it('take a note that begins a little early, or ends a little late, for where it is meant', () => {
    expect(placed([note(60, 1975, 4025)], clock)).toMatchObject([{ from: 2, to: 2 }]);
    expect(placed([note(60, 1990, 2020)], clock)).toMatchObject([{ from: 2, to: 2 }]);
  });

  it('are one where the file has no bars', () => {
    const frames = smpteClock({ kind: 'smpte', framesPerSecond: 25, ticksPerFrame: 40 });
    const notes = placed([note(72, 0, 1000), note(60, 1000, 1500)], frames);
    expect(runsWhere(notes, high, 4)).toEqual([{ bars: null, notes: [0] }]);
  });
});

describe('bars joined', () => {
  it('are ranges', () => {
    expect(joinBars([1, 1, 2, 4, 6, 7, null])).toEqual([
      { from: 1, to: 2 },
      { from: 4, to: 4 },
      { from: 6, to: 7 },
    ]);
    expect(joinBars([])).toEqual([]);
  });
});
