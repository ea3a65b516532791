import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { align, type TakenNote, type WrittenNote } from '../../../src/score/align/index.js';
import { numbers, taken, written } from './take.js';

/** 200 chords of three, freely timed; one note in fifty is not played, one in fifty struck with a neighbour. */
function played(seed: number) {
  const random = numbers(seed);
  const score: WrittenNote[] = [];
  const take: (TakenNote & { readonly of: number })[] = [];
  let ms = 0;
  for (let beat = 0; beat < 200; beat++) {
    const low = 36 + Math.floor(random() * 24);
    for (const pitch of [low, low + 7, 72 + Math.floor(random() * 12)]) {
      score.push({ time: beat, pitch, isGrace: false });
      if (random() > 0.02) take.push({ ms: ms + random() * 40, pitch, of: score.length - 1 });
      if (random() < 0.02) take.push({ ms: ms + random() * 40, pitch: pitch + 1, of: -1 });
    }
    ms += 300 + 400 * random();
  }
  return { score, take: take.sort((a, b) => a.ms - b.ms) };
}

describe('a take aligned with its score', () => {
  it('pairs every note of a take in time', () => {
    const { pairs, missing, extra } = align(written('60 64-67 62'), taken('0:60 500:67 510:64 1000:62'));
    expect(pairs).toEqual([
      { written: 0, taken: 0 },
      { written: 1, taken: 2 },
      { written: 2, taken: 1 },
      { written: 3, taken: 3 },
    ]);
    expect({ missing, extra }).toEqual({ missing: [], extra: [] });
  });

  it('is free of tempo: slow, fast, and stopping in the middle', () => {
    const score = written('60 62 64 65 67 65 64 62 60');
    for (const pace of [60, 500, 3000]) {
      const take = score.map(({ time, pitch }) => ({ ms: time * pace + (time > 4 ? 8000 : 0), pitch }));
      expect(align(score, take).pairs).toHaveLength(score.length);
    }
  });

  it('knows which notes are missing and which are too many', () => {
    const { pairs, missing, extra } = align(
      written('60 62 64 65 67 69 71 72'),
      taken('0:60 500:62 760:70 1500:65 2000:67 2500:69 2600:61 3500:72'),
    );
    expect(pairs.map((pair) => pair.written)).toEqual([0, 1, 3, 4, 5, 7]);
    expect(missing).toEqual([2, 6]);
    expect(extra).toEqual([2, 6]);
  });

  it('of repeated notes with one left out, the others are at their times', () => {
    const { missing } = align(written('48 60 60 60 60 72'), taken('0:48 500:60 1000:60 2000:60 2500:72'));
    expect(missing).toEqual([3]);
  });

  it('takes no note for another pitch', () => {
    const { pairs, missing, extra } = align(written('60 62 64'), taken('0:60 500:63 1000:64'));
    expect(pairs.map((pair) => pair.written)).toEqual([0, 2]);
    expect([missing, extra]).toEqual([[1], [1]]);
  });

  it('finds a melody ahead of its chord, across the notes under it', () => {
    const score: WrittenNote[] = [];
    const take: TakenNote[] = [];
    for (let beat = 0; beat < 12; beat++) {
      score.push(
        { time: beat, pitch: 72 + (beat % 5), isGrace: false },
        { time: beat, pitch: 48, isGrace: false },
      );
      const under = 50 + ((7 * beat) % 12);
      score.push({ time: beat + 0.9, pitch: under, isGrace: false });
      // the melody comes before the last note of the beat before
      take.push({ ms: 500 * beat - 60, pitch: 72 + (beat % 5) }, { ms: 500 * beat, pitch: 48 });
      take.push({ ms: 500 * (beat + 0.9), pitch: under });
    }
    take.sort((a, b) => a.ms - b.ms);
    const { pairs } = align(score, take);
    expect(pairs).toHaveLength(36);
    for (const pair of pairs) expect(score[pair.written]?.pitch).toBe(take[pair.taken]?.pitch);
  });

  it('leaves out a whole repeat that was not made', () => {
    const random = numbers(7);
    const tune = Array.from({ length: 60 }, () => 60 + Math.floor(12 * random()));
    const coda = [72, 74, 76, 77, 79, 81, 83, 84];
    const all = [...tune, ...tune, ...coda];
    const score = all.map((pitch, time) => ({ time, pitch, isGrace: false }));
    const take = [...tune, ...coda].map((pitch, index) => ({ ms: 400 * index, pitch }));
    const { pairs, missing, extra } = align(score, take);
    expect(pairs).toHaveLength(68);
    expect(missing).toHaveLength(60);
    expect(extra).toEqual([]);
  });

  it('is empty where there is nothing to align', () => {
    expect(align([], [])).toEqual({ pairs: [], missing: [], extra: [] });
    expect(align(written('60'), [])).toEqual({ pairs: [], missing: [0], extra: [] });
    expect(align([], taken('0:60'))).toEqual({ pairs: [], missing: [], extra: [0] });
  });

  it('uses each note once, pairs only equal pitches, and leaves none unsaid', () => {
    const pitch = fc.integer({ min: 55, max: 65 });
    const scoreNote = fc.record({ time: fc.nat(30), pitch, isGrace: fc.constant(false) });
    const takeNote = fc.record({ ms: fc.nat(20_000), pitch });
    fc.assert(
      fc.property(
        fc.array(scoreNote, { maxLength: 40 }),
        fc.array(takeNote, { maxLength: 40 }),
        (score, notes) => {
          const take = [...notes].sort((a, b) => a.ms - b.ms);
          const { pairs, missing, extra } = align(score, take);
          expect(new Set(pairs.map((pair) => pair.written)).size).toBe(pairs.length);
          expect(new Set(pairs.map((pair) => pair.taken)).size).toBe(pairs.length);
          for (const pair of pairs) expect(score[pair.written]?.pitch).toBe(take[pair.taken]?.pitch);
          expect(pairs.length + missing.length).toBe(score.length);
          expect(pairs.length + extra.length).toBe(take.length);
        },
      ),
    );
  });

  it('finds at least 98 of 100 notes of a take with slips, freely timed (made up, with known answers)', () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const { score, take } = played(seed);
      const right = align(score, take).pairs.filter((pair) => take[pair.taken]?.of === pair.written).length;
      expect(right / take.filter(({ of }) => of >= 0).length).toBeGreaterThanOrEqual(0.98);
    }
  });
});
