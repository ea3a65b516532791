import { describe, expect, it } from 'vitest';
import { strokesOf } from '../../src/arrange/strokes.js';
import { steady } from './clock.js';

describe('strokesOf', () => {
  it('hears two sticks as one stroke, whatever they hit', () => {
    const notes = [
      { tick: 0, endTick: 100, velocity: 60 },
      { tick: 20, endTick: 200, velocity: 90 },
      { tick: 480, endTick: 500, velocity: 70 },
    ];
    expect(strokesOf(notes, steady)).toEqual([
      { tick: 0, endTick: 200, velocity: 90 },
      { tick: 480, endTick: 500, velocity: 70 },
    ]);
  });
});
