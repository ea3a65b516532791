import { describe, expect, it } from 'vitest';
import { cc, kindsOf, library, note, proofOf, tap } from '../events.js';

const articulations = ['short: {switch: {note: 0}}', 'long: {switch: {note: 1}}'];
/** One note at the beginning of each bar of 2000 ticks, as short as a bar less `rest`. */
const bars = (count: number, rest = 1000) =>
  Array.from({ length: count }, (_, bar) => note(2000 * bar + 100, 2000 * bar + 2100 - rest, 60)).flat();
const meant = (count: number) =>
  Array.from({ length: count }, (_, bar) => [2000 * bar + 100, 60, 'short'] as const);

describe('missing-restate', () => {
  it('is told where a switch is as many bars old as the map says', () => {
    const map = library(articulations, '{restate: {every-bars: 2}}');
    const scene = { map, meant: meant(4), input: bars(4), isAsPlayed: true };
    expect(kindsOf({ ...scene, output: [...tap(80, 0), ...tap(4080, 0), ...bars(4)] })).toEqual([]);
    expect(proofOf({ ...scene, output: [...tap(80, 0), ...bars(4)] }).violations).toMatchObject([
      { kind: 'missing-restate', tick: 4100, bar: 3 },
    ]);
  });

  it('is told after a rest as long as the map says, and not after a shorter one', () => {
    const map = library(articulations, '{restate: {after-rest: 500ms}}');
    const scene = { map, meant: meant(2), isAsPlayed: true };
    expect(kindsOf({ ...scene, output: [...tap(80, 0), ...bars(2, 499)] })).toEqual([]);
    expect(kindsOf({ ...scene, output: [...tap(80, 0), ...bars(2, 500)] })).toEqual(['missing-restate']);
    expect(kindsOf({ ...scene, output: [...tap(80, 0), ...tap(2080, 0), ...bars(2, 500)] })).toEqual([]);
  });

  it('is told for a controller only against an input', () => {
    const map = library(
      ['short: {switch: {controller: 20, value: 1}}', 'long: {switch: {controller: 20, value: 2}}'],
      '{restate: {every-bars: 1}}',
    );
    const scene = { map, meant: meant(2), output: [cc(80, 20, 1), ...bars(2)], isAsPlayed: true };
    expect(kindsOf(scene)).toEqual([]);
    expect(kindsOf({ ...scene, input: bars(2) })).toEqual(['missing-restate']);
  });

  it('is not told where notes may have been moved', () => {
    const map = library(articulations, '{restate: {every-bars: 1}}');
    expect(kindsOf({ map, meant: meant(2), output: [...tap(80, 0), ...bars(2)] })).toEqual([]);
  });

  it('is not told where the map does not restate', () => {
    const map = library(articulations);
    expect(kindsOf({ map, meant: meant(9), output: [...tap(80, 0), ...bars(9)], isAsPlayed: true })).toEqual(
      [],
    );
  });
});
