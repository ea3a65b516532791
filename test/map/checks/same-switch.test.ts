import { describe, expect, it } from 'vitest';
import { diagnosed } from '../read/diagnosed.js';

const check = (articulations: string, switching = '') =>
  diagnosed(`${switching}\narticulations:\n${articulations}\nrules:\n  - use: a\n`).filter((said) =>
    said.startsWith('same-switch'),
  );

describe('articulations that the library could not tell apart (same-switch)', () => {
  it('are those to which the same messages are sent, in any order and aspect', () => {
    expect(check('  a: {switch: {note: C0}}\n  b: {switch: {note: C0, aspect: mute}}')).toEqual([
      'same-switch: "b" has the same switch as "a"',
    ]);
    expect(
      check(
        '  a: {switch: [{controller: 20, value: 1}, {program: 2}]}\n  b: {switch: [{program: 2}, {controller: 20, value: 1}]}',
      ),
    ).toHaveLength(1);
    expect(
      check('  a: {switch: {note: C0}}\n  b: {switch: {note: 12}}\n  c: {switch: {note: B#-1}}'),
    ).toHaveLength(2);
  });

  it('are those to which nothing is sent, if they are several', () => {
    expect(check('  a: {}\n  b: {loudness: controller}', 'switching: {notes: momentary}')).toEqual([
      'same-switch: "b" has no switch, and neither has "a"',
    ]);
    expect(check('  a: {}\n  b: {switch: {note: C0}}', 'switching: {notes: momentary}')).toEqual([]);
  });

  it('are not those with one message more, another value, bank or channel', () => {
    expect(
      check(
        [
          '  a: {switch: {program: 2}}',
          '  b: {switch: {program: 2, bank: [0, 0]}}',
          '  c: {switch: {program: 2, bank: [0, 1]}}',
          '  d: {switch: [{program: 2}, {channel: 2}]}',
          '  e: {switch: [{program: 2}, {channel: 3}]}',
          '  f: {switch: {controller: 2, value: 0}}',
          '  g: {switch: {controller: 0, value: 2}}',
        ].join('\n'),
      ),
    ).toEqual([]);
  });
});
