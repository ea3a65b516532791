import { describe, expect, it } from 'vitest';
import { strayPath } from '../../../src/cue/read/path.js';

describe('a path of a cue', () => {
  it('stays below its folder', () => {
    for (const path of ['a.mid', 'maps/a.yaml', './a.mid', 'maps/../a.mid', 'a b/ü.mid', '..a/b', 'a..'])
      expect([path, strayPath(path)]).toEqual([path, undefined]);
  });

  it('may not lead out of it, by whatever spelling', () => {
    const out = [
      '/a.mid',
      '../a.mid',
      'a/../../b',
      './../a',
      'C:/a.mid',
      'c:a.mid',
      '\\a',
      'a\\..\\..\\b',
      '~/a',
    ];
    for (const path of out) expect([path, typeof strayPath(path)]).toEqual([path, 'string']);
  });

  it('names a file', () => {
    for (const path of ['.', 'a/..', './']) expect(strayPath(path)).toBe('it names no file');
  });
});
