import { describe, expect, it } from 'vitest';
import { runExamples } from '../../src/compile/examples.js';
import { ladderMap, mapOf } from '../support/map.js';

const run = (examples: string) => runExamples(mapOf(`${ladderMap}\nexamples:\n${examples}`));

describe("a map's own examples", () => {
  it('pass in silence where they come out as expected', () => {
    expect(run('  - notes: [{pitch: C4, held: 90ms}]\n    expect: [short]\n')).toEqual([]);
  });

  it('meet bounds exactly, in time and in fractions', () => {
    expect(
      run(
        '  - notes: [{pitch: C4, held: 129.9ms}, {pitch: C4, held: 130ms}, {pitch: C4, held: 320ms}]\n    expect: [short, medium, long]\n',
      ),
    ).toEqual([]);
    const fractions = mapOf(`
articulations:
  a: {switch: {note: C0}}
  b: {switch: {note: D0}}
rules:
  - when: {held: {from: 1/12}}
    use: a
  - use: b
examples:
  - notes: [{pitch: C4, held: 1/12}, {pitch: C4, held: 1/16}]
    expect: [a, b]
    bpm: 97
`);
    expect(runExamples(fractions)).toEqual([]);
  });

  it('play notes detached unless a pace is given', () => {
    expect(
      run('  - notes: [{pitch: C4, held: 500ms}, {pitch: D4, held: 500ms}]\n    expect: [long, long]\n'),
    ).toEqual([]);
    expect(
      run(
        '  - notes: [{pitch: C4, held: 500ms, pace: 1/4}, {pitch: D4, held: 500ms}]\n    expect: [joined, long]\n',
      ),
    ).toEqual([]);
  });

  it('are errors where they come out otherwise (example-failed), each at its place', () => {
    const failures = run(
      '  - notes: [{pitch: C4, held: 90ms}, {pitch: C4, held: 90ms}]\n    expect: [long, short]\n',
    );
    expect(failures).toMatchObject([
      { code: 'example-failed', severity: 'error', place: { kind: 'text', file: 'test.yaml' } },
    ]);
    expect(failures[0]?.message).toContain('"long"');
    expect(failures[0]?.message).toContain('"short"');
  });

  it('carry marks', () => {
    expect(run('  - notes: [{pitch: C4, held: 90ms, marked: long}]\n    expect: [long]\n')).toEqual([]);
  });
});
