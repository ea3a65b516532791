import { describe, expect, it } from 'vitest';
import {
  contentOf,
  contents,
  contentText,
  empty,
  isOfController,
  isOfProgram,
  several,
} from '../../src/prove/content.js';
import { bend, cc, columnsOf, off, on, program } from './events.js';

describe('what stands in an aspect', () => {
  it('is told in words', () => {
    const all = [contents.key(24), contents.controller(20, 5), contents.program(7), contents.bank(1, 2)];
    expect(all.map(contentText)).toEqual(['key 24', 'controller 20 at 5', 'program 7', 'bank 1 2']);
  });

  it('is what a message puts there, whether a key is struck or released', () => {
    const columns = columnsOf([on(0, 24, 1, 3), off(0, 24), cc(0, 20, 5, 2), program(0, 7), bend(0, 1)]);
    expect([0, 1, 2, 3, 4, 5].map((event) => contentOf(columns, event))).toEqual([
      contents.key(24),
      contents.key(24),
      contents.controller(20, 5),
      contents.program(7),
      empty,
      empty,
    ]);
  });

  it('was put there by a controller, or by a program', () => {
    expect(isOfController(contents.controller(20, 5), 20)).toBe(true);
    expect(isOfController(contents.controller(20, 5), 21)).toBe(false);
    expect(isOfController(contents.program(20), 20)).toBe(false);
    expect(isOfProgram(contents.program(20))).toBe(true);
    const others = [contents.key(1), contents.bank(1, 2), empty, several];
    expect(others.some((content) => isOfProgram(content) || isOfController(content, 0))).toBe(false);
  });
});
