import { describe, expect, it } from 'vitest';
import { fitting } from '../../support/decided.js';

describe('rest-after', () => {
  it('is endless for the last note and 0 where notes overlap', () => {
    const notes = [
      { tick: 0, end: 150, pitch: 60 },
      { tick: 100, end: 200, pitch: 62 },
      { tick: 700, end: 800, pitch: 64 },
    ];
    expect(fitting('{rest-after: {from: 500ms}}', notes)).toEqual([false, true, true]);
    expect(fitting('{rest-after: {below: 500ms}}', notes)).toEqual([true, false, false]);
  });
});
