import { describe, expect, it } from 'vitest';
import { fitting } from '../../support/decided.js';

describe('chord', () => {
  it('counts the notes of the onset', () => {
    const notes = [
      { tick: 0, end: 400, pitch: 60 },
      { tick: 500, end: 900, pitch: 60 },
      { tick: 510, end: 900, pitch: 64 },
      { tick: 520, end: 900, pitch: 67 },
    ];
    expect(fitting('{chord: {from: 2}}', notes)).toEqual([false, true, true, true]);
    expect(fitting('{chord: {to: 1}}', notes)).toEqual([true, false, false, false]);
    expect(fitting('{chord: {from: 4}}', notes)).not.toContain(true);
  });
});
