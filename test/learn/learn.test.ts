import { describe, expect, it } from 'vitest';
import { type LearnNotes, learn } from '../../src/learn/index.js';
import { some } from '../support/draws.js';
import { inventNotes, random } from './invented.js';
import { agreement, labelled, mean } from './labelled.js';

const noises = [0, 0.05, 0.1];

/** Learns from invented ladders of 3 to 7 rules, one for each seed. */
function learnAll(seeds: readonly number[], length: number, faults: Parameters<typeof labelled>[3] = {}) {
  return seeds.map((seed) => {
    const noise = faults.forgotten ? 0 : (noises[seed % 3] ?? 0);
    const rules = 3 + (seed % 5);
    const given = labelled(seed, length, rules, { noise, ...faults });
    const learned = learn(given.notes, { steadiness: false });
    return { ...given, rules, learned, agrees: agreement(learned.ladder, given.ladder, given.next) };
  });
}

describe('learn, from invented ladders', () => {
  it('finds the truth in 1,000 notes within one point, with at most one rule more', () => {
    const all = learnAll(some([1, 2, 3]), 1000);
    expect(mean(all.map(({ agrees }) => agrees))).toBeGreaterThan(0.99);
    for (const { learned, rules } of all) expect(learned.ladder.length).toBeLessThanOrEqual(rules + 1);
  });

  it('agrees on .95 of fresh notes after 200', () => {
    const all = learnAll(some([1, 2, 3, 4, 5]), 200);
    expect(mean(all.map(({ agrees }) => agrees))).toBeGreaterThan(0.95);
  });

  it('agrees on .97 where a quarter of the switches was forgotten, and says so', () => {
    const all = learnAll(some([2, 5]), 1000, { forgotten: 0.25 });
    expect(mean(all.map(({ agrees }) => agrees))).toBeGreaterThan(0.97);
    for (const { learned } of all) expect(learned.forgetful).toBe(true);
    const stretches = all.flatMap(({ learned }) => learned.stretches);
    expect(stretches.filter(({ looks }) => looks === 'forgotten').length).toBeGreaterThan(25 * all.length);
  });

  it('notices switches that come a note late, and learns what they were meant for', () => {
    const all = learnAll(some([1, 2]), 600, { late: true });
    for (const { learned } of all) expect(learned.shift).toBe(1);
    expect(mean(all.map(({ agrees }) => agrees))).toBeGreaterThan(0.97);
  });

  it('tells what the ladder gives right, as counting it shows', () => {
    const { notes } = labelled(4, 300, 4, { noise: 0.1 });
    const learned = learn(notes);
    const right = Array.from(notes.label).filter(
      (label, row) => learned.ladder[learned.decided[row] ?? -1]?.articulation === label,
    ).length;
    expect(learned.accuracy.ladder).toBeCloseTo(right / notes.length, 12);
    const decides = learned.rules.reduce((sum, rule) => sum + rule.decides, 0);
    const wrong = learned.rules.reduce((sum, rule) => sum + rule.wrong, 0);
    expect(decides).toBe(notes.length);
    expect(wrong).toBe(notes.length - right);
    expect(learned.accuracy.singleBound).toBeLessThan(learned.accuracy.ladder);
    expect(learned.accuracy.commonest).toBeLessThanOrEqual(learned.accuracy.singleBound);
  });
});

describe('learn, where it has to be careful', () => {
  it('calls it a guess under 100 notes', () => {
    expect(learn(labelled(3, 99, 3).notes).guess).toBe(true);
    expect(learn(labelled(3, 100, 3).notes).guess).toBe(false);
  });

  it('does not learn an articulation of 7 notes, but one of 8', () => {
    const { notes } = labelled(3, 400, 3);
    const seven = withRare(notes, 7);
    expect(learn(seven, { steadiness: false }).notLearned).toContainEqual({ articulation: 4, notes: 7 });
    expect(
      learn(withRare(notes, 8), { steadiness: false }).notLearned.map(({ articulation }) => articulation),
    ).not.toContain(4);
  });

  it('invents no rule where articulations were chosen by section', () => {
    const notes = inventNotes(400, random(11));
    // Sections of 50 notes; the articulations of their order have nothing to do with what is played.
    const order = [0, 1, 0, 2, 1, 0, 2, 1];
    const learned = learn({
      ...notes,
      label:
        notes.label instanceof Int32Array
          ? notes.label.map((_, row) => order[Math.floor(row / 50)] ?? 0)
          : [],
    });
    expect(learned.verdict).toBe('by-section');
    expect(learned.ladder).toHaveLength(1);
  });

  it('invents no rule for labels drawn by lot', () => {
    const next = random(12);
    const notes = inventNotes(300, next);
    const learned = learn({
      ...notes,
      label: Int32Array.from({ length: 300 }, () => Math.floor(next() * 3)),
    });
    expect(learned.verdict).toBe('nothing-fits');
    expect(learned.ladder).toHaveLength(1);
  });

  it('has nothing to choose with one articulation, or with none', () => {
    const notes = inventNotes(50, random(13));
    expect(learn({ ...notes, label: new Int32Array(50) }).verdict).toBe('one-articulation');
    const none = learn(notes);
    expect(none.verdict).toBe('too-few');
    expect(none.ladder).toEqual([]);
    expect(learn({ ...inventNotes(0, random(1), 1) }).verdict).toBe('too-few');
  });

  it('keeps to the rules that it may have', () => {
    const { notes } = labelled(4, 250, 7);
    expect(learn(notes, { mostRules: 3 }).ladder.length).toBeLessThanOrEqual(3);
  });

  it('finds the steadiness with which a line was switched', () => {
    const { notes, row } = hovering();
    const learned = learn({ ...notes, label: row });
    expect(learned.steadiness).toBeGreaterThan(0);
    expect(learned.accuracy.ladder).toBeGreaterThan(0.95);
  });
});

/** The first notes of some labels made another articulation's. */
function withRare(notes: LearnNotes, count: number): LearnNotes {
  return {
    ...notes,
    label: Int32Array.from(notes.label, (label, row) => (row % 40 === 0 && row / 40 < count ? 4 : label)),
  };
}

/** Sections played short or long around 50 % of the interval, so that single notes stray over it; switched by section. */
function hovering(): { readonly notes: LearnNotes; readonly row: Int32Array } {
  const next = random(21);
  const notes = inventNotes(600, next);
  const label = Int32Array.from({ length: 600 }, (_, row) => Math.floor(row / 12) % 2);
  const heldShare = Float64Array.from(
    label,
    (long) => (long === 1 ? 62 : 40) * Math.exp((next() + next() - 1) * 0.45),
  );
  const heldMs = heldShare.map((share, row) => (share / 100) * (notes.paceMs[row] ?? 0));
  return { notes: { ...notes, heldShare, heldMs }, row: label };
}
