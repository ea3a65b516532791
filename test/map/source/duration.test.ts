import { describe, expect, it } from 'vitest';
import { parseDuration } from '../../../src/map/source/duration.js';

describe('durations', () => {
  it('are times in ms or s', () => {
    expect(parseDuration('25ms')).toEqual({ unit: 'ms', ms: 25 });
    expect(parseDuration('0.5ms')).toEqual({ unit: 'ms', ms: 0.5 });
    expect(parseDuration('2s')).toEqual({ unit: 'ms', ms: 2000 });
    expect(parseDuration('1.005s')).toEqual({ unit: 'ms', ms: 1005 });
  });
  it('are fractions of a whole note', () => {
    expect(parseDuration('1/12')).toEqual({ unit: 'whole', numerator: 1, denominator: 12 });
    expect(parseDuration('3/16')).toEqual({ unit: 'whole', numerator: 3, denominator: 16 });
  });
});
