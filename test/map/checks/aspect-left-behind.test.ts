import { describe, expect, it } from 'vitest';
import { diagnosed } from '../read/diagnosed.js';

const check = (articulations: string, switching = '') =>
  diagnosed(`${switching}\narticulations:\n${articulations}\nrules:\n  - use: a\n`);

describe('aspects that some articulations set and others leave (aspect-left-behind)', () => {
  it('are told of once each, with who sets them and who does not', () => {
    expect(
      check(
        [
          '  a: {switch: {note: C0}}',
          '  b: {switch: [{note: D0}, {controller: 68, value: 127}]}',
          '  c: {switch: [{controller: 68, value: 1}, {program: 4}]}',
        ].join('\n'),
      ),
    ).toEqual([
      'aspect-left-behind: "b", "c" set the controller 68, but "a" leaves it as it was',
      'aspect-left-behind: "c" sets the program, but "a", "b" leave it as it was',
      'aspect-left-behind: "a", "b" set the switch key, but "c" leaves it as it was',
    ]);
  });

  it('are none where each sets what the others set, or where the aspect has a name of its own', () => {
    expect(
      check(
        '  a: {switch: [{note: C0}, {controller: 1, value: 0}]}\n  b: {switch: [{controller: 1, value: 1}, {note: D0}]}',
      ),
    ).toEqual([]);
    expect(check('  a: {switch: {note: C0}}\n  b: {switch: [{note: D0}, {note: E0, aspect: mute}]}')).toEqual(
      [],
    );
  });

  it('are none for momentary keys, which are let go', () => {
    expect(check('  a: {}\n  b: {switch: {note: D0}}', 'switching: {notes: momentary}')).toEqual([]);
    expect(
      check('  a: {}\n  b: {switch: {controller: 1, value: 1}}', 'switching: {notes: momentary}'),
    ).toHaveLength(1);
  });

  it('are looked for on each channel by itself', () => {
    expect(
      check('  a: {switch: {note: C0}}\n  b: {switch: {note: D0}}\n  far: {switch: {channel: 3}}'),
    ).toEqual([]);
    expect(
      check(
        '  a: {switch: {note: C0}}\n  b: {switch: [{channel: 3}, {note: D0}]}\n  far: {switch: {channel: 3}}',
      ),
    ).toEqual(['aspect-left-behind: "b" sets the switch key, but "far" leaves it as it was']);
  });
});
