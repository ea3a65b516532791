import { describe, expect, it } from 'vitest';
import { type ProbePlan, possiblePlans, probePlan } from '../../../../src/sound/measure/index.js';
import { joinedPairs, spreadPitches } from '../../../../src/sound/measure/plan/pitches.js';
import { articulation, libraryOf, short } from '../library.js';

const eight = libraryOf(
  [
    articulation('long', { switch: [{ kind: 'note', key: 50 }] }),
    articulation('soft'),
    articulation('trembling'),
    articulation('joined', { overlapMs: 40 }),
    short('short'),
    short('shorter'),
    short('plucked'),
    short('struck'),
  ],
  { range: { low: 48, high: 84 } },
);

const pairsOf = (plan: ProbePlan, name: string) =>
  plan.slots
    .filter(({ kind, articulation: of }) => kind === 'note' && of === name)
    .map(({ notes, value }) => [notes[0]?.pitch, notes[0]?.velocity, value] as const);

describe('the plan of a probe', () => {
  it('takes about 12 minutes for eight articulations, and under 3 if it is quick', () => {
    expect(probePlan(eight).seconds / 60).toBeGreaterThan(10.5);
    expect(probePlan(eight).seconds / 60).toBeLessThan(13);
    expect(probePlan(eight, { quick: true }).seconds / 60).toBeLessThan(3);
  });

  it('plays every articulation at four pitches and four values of what makes it louder', () => {
    const plan = probePlan(eight);
    for (const { name, loudness } of eight.articulations) {
      const played = pairsOf(plan, name);
      expect(played).toHaveLength(16);
      expect(new Set(played.map(([pitch]) => pitch)).size).toBe(4);
      const [velocities, values] = [1, 2].map((index) => new Set(played.map((one) => one[index])));
      expect([velocities?.size, values?.size]).toEqual(loudness === 'velocity' ? [4, 1] : [1, 4]);
    }
  });

  it('has one pitch and value that all articulations share', () => {
    const plan = probePlan(eight);
    for (const { name } of eight.articulations) {
      const common = pairsOf(plan, name).filter(
        ([, velocity, value]) => velocity === plan.common && value === plan.common,
      );
      expect(common).toHaveLength(4);
    }
  });

  it('is shuffled: no articulation stays together', () => {
    const names = probePlan(eight).slots.map(({ articulation: name }) => name);
    const changes = names.filter((name, index) => index > 0 && names[index - 1] !== name).length;
    expect(changes).toBeGreaterThan(names.length / 2);
  });

  it('never plays a key that switches, and plays every other key once', () => {
    const { slots } = probePlan(eight);
    const pitches = slots.flatMap(({ notes }) => notes.map(({ pitch }) => pitch));
    expect(pitches).not.toContain(50);
    const keys = slots.filter(({ kind }) => kind === 'key').map(({ notes }) => notes[0]?.pitch);
    expect(keys.toSorted()).toEqual(
      Array.from({ length: 37 }, (_, index) => 48 + index).filter((key) => key !== 50),
    );
  });

  it.each([
    [{}, 5.5, 3],
    [{ room: true }, 7.5, 5],
  ])('leaves %o time for tails', (options, sustained, brief) => {
    const { slots } = probePlan(eight, options);
    const lengthOf = (name: string) =>
      slots.find((one) => one.kind === 'note' && one.articulation === name)?.length;
    expect([lengthOf('long'), lengthOf('short')]).toEqual([sustained, brief]);
    slots.forEach((slot, index) => {
      const next = slots[index + 1];
      if (next) expect(next.at).toBeCloseTo(slot.at + slot.length, 9);
      for (const { at, held } of slot.notes) {
        expect(at).toBeGreaterThanOrEqual(slot.at + 0.5);
        expect(at + held).toBeLessThanOrEqual(slot.at + slot.length - 0.5);
      }
    });
  });

  it('is silent where the noise is measured, and has three clicks at each end', () => {
    const { clicks, silence, slots, seconds } = probePlan(eight);
    expect([clicks.start.length, clicks.end.length]).toEqual([3, 3]);
    expect(silence.from).toBeGreaterThan((clicks.start.at(-1) ?? 0) + 1);
    expect(silence.to).toBeLessThan(slots[0]?.notes[0]?.at ?? 0);
    const last = slots.at(-1);
    expect(clicks.end[0]).toBeGreaterThanOrEqual((last?.at ?? 0) + (last?.length ?? 0));
    expect(seconds).toBeGreaterThan((clicks.end.at(-1) ?? 0) + 0.5);
  });

  it('is always the same, and its clicks tell it from others', () => {
    expect(probePlan(eight)).toEqual(probePlan(eight));
    const others = [
      eight,
      { ...eight, articulations: eight.articulations.slice(1) },
      { ...eight, articulations: eight.articulations.toReversed() },
      { ...eight, range: { low: 48, high: 83 } },
    ].map((library) => JSON.stringify(probePlan(library).clicks.start));
    expect(possiblePlans(eight)).toHaveLength(4);
    expect(new Set(possiblePlans(eight).map(({ clicks }) => JSON.stringify(clicks))).size).toBe(4);
    expect(new Set(others).size).toBe(4);
  });

  it('does with few keys', () => {
    const drum = libraryOf([short('hit')], { range: { low: 40, high: 40 } });
    expect(new Set(probePlan(drum).slots.flatMap(({ notes }) => notes.map(({ pitch }) => pitch)))).toEqual(
      new Set([40]),
    );
    expect(spreadPitches([], 4)).toEqual([]);
    expect(joinedPairs([40, 41, 42], 4)).toEqual([]);
    expect(joinedPairs([40, 47], 4)).toEqual([
      [40, 47],
      [47, 40],
    ]);
  });
});
