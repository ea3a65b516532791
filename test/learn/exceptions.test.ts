import { expect, it } from 'vitest';
import { findExceptions, stretchesOf } from '../../src/learn/exceptions.js';
import { inventNotes, random } from './invented.js';

function looks(labels: readonly number[], says: readonly number[]): readonly string[] {
  const notes = inventNotes(labels.length, random(1), 1);
  const label = Int32Array.from(labels);
  const exceptions = findExceptions(label, Int32Array.from(says), new Int32Array(labels.length));
  return stretchesOf(exceptions, notes, label).map(
    (stretch) => `${stretch.looks} ${stretch.exceptions.length}`,
  );
}

it('takes several notes that go on with what sounded for a forgotten switch', () => {
  expect(looks([0, 0, 0, 0, 1], [0, 1, 1, 1, 1])).toEqual(['forgotten 3']);
});

it('takes one note that goes on, before what was due, for a late switch', () => {
  expect(looks([0, 0, 1, 1], [0, 1, 1, 1])).toEqual(['late 1']);
});

it('takes nothing else for either', () => {
  expect(looks([0, 1, 0, 0], [0, 0, 0, 0])).toEqual(['single 1']);
  expect(looks([0, 1, 1, 0], [0, 0, 0, 0])).toEqual(['row 2']);
  expect(looks([0, 0, -1, 1], [0, 0, 1, 1])).toEqual([]);
});
