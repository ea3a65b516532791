import { describe, expect, it } from 'vitest';
import { fitting } from '../../support/decided.js';

describe('rest-before', () => {
  it('is endless for the first note and 0 where notes touch', () => {
    const notes = [
      { tick: 0, end: 100, pitch: 60 },
      { tick: 100, end: 200, pitch: 62 },
      { tick: 700, end: 800, pitch: 64 },
    ];
    expect(fitting('{rest-before: {from: 500ms}}', notes)).toEqual([true, false, true]);
    expect(fitting('{rest-before: {below: 1ms}}', notes)).toEqual([false, true, false]);
    expect(fitting('{rest-before: {from: 1/4}}', notes)).toEqual([true, false, true]);
  });
});
