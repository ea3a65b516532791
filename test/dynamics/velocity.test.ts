import { expect, it } from 'vitest';
import { dynamicMarks, levelOfMark } from '../../src/dynamics/levels.js';
import { levelOfVelocity, percentOfForte, velocityOfLevel } from '../../src/dynamics/velocity.js';

const level = (mark: string) => levelOfMark(mark) ?? Number.NaN;

it('has forte where MusicXML has it: 100 % is velocity 90 (MusicXML 4.0 `sound dynamics`, from memory)', () => {
  expect(velocityOfLevel(level('f'))).toBe(90);
  expect(percentOfForte(level('f'))).toBe(100);
  for (const mark of dynamicMarks) {
    expect(Math.round((90 * percentOfForte(level(mark))) / 100)).toBe(velocityOfLevel(level(mark)));
  }
});

it('has the documented velocities for the marks', () => {
  expect(dynamicMarks.map((mark) => velocityOfLevel(level(mark)))).toEqual([
    15, 30, 45, 60, 75, 90, 105, 120,
  ]);
});

it('never leaves 1 to 127, because velocity 0 is a release', () => {
  expect([-9, -1, 20].map(velocityOfLevel)).toEqual([1, 1, 127]);
});

it('gives every velocity back from its level', () => {
  for (let velocity = 1; velocity <= 127; velocity += 1) {
    expect(velocityOfLevel(levelOfVelocity(velocity))).toBe(velocity);
  }
});
