import { describe, expect, it } from 'vitest';
import { library, note, proofOf, tap } from './events.js';

const map = library(['one: {switch: {note: 0}}', 'two: {switch: {note: 1}}']);
/** Notes in bars of 2000 ticks, each with the length that it is given. */
const proof = (places: readonly (readonly [tick: number, end: number])[], of = map) => {
  const music = places.flatMap(([tick, end]) => note(tick, end, 60));
  const meant = places.map(([tick]) => [tick, 60, 'one'] as const);
  const first = Math.max(0, (places[0]?.[0] ?? 0) - 20);
  const found = proofOf({ map: of, meant, input: music, output: [...tap(first, 0), ...music] });
  expect(found.violations).toEqual([]);
  const [part] = found.parts;
  if (!part) throw new Error('no part');
  return part;
};
const settings = (part: ReturnType<typeof proof>) => part.cures.map(({ setting }) => setting);

describe('cures', () => {
  it('are not looked for where playback is right from every bar', () => {
    expect(proof([[500, 600]]).cures).toEqual([]);
  });

  it('send a switch again in every bar that has notes behind its line', () => {
    // From bars 2 and 3 notes are wrong; both begin with a note well behind the line.
    const part = proof([
      [500, 1900],
      [2100, 3900],
      [3000, 3900],
      [4100, 5900],
    ]);
    expect(part.wrongFrom).toEqual([
      { from: 2, to: 2, wrongNotes: 3 },
      { from: 3, to: 3, wrongNotes: 1 },
    ]);
    expect(part.cures[0]).toEqual({ setting: { everyBars: 1 }, moreSwitches: 2, wrongBars: 0 });
    expect(settings(part)).not.toContainEqual({ everyBars: 2 });
  });

  it('are ordered by how many switches they add', () => {
    // The only rest is in bar 2; every bar would add more switches than the rest does.
    const part = proof([
      [500, 1000],
      [1000, 1500],
      [1500, 1600],
      [2900, 3000],
    ]);
    expect(part.cures.map(({ moreSwitches }) => moreSwitches)).toEqual(
      [...part.cures.map(({ moreSwitches }) => moreSwitches)].sort((a, b) => a - b),
    );
    expect(settings(part)).toContainEqual({ afterRest: { unit: 'ms', ms: 1000 } });
    expect(settings(part)).not.toContainEqual({ afterRest: { unit: 'ms', ms: 2000 } });
    expect(part.cures.every(({ wrongBars }) => wrongBars === 0)).toBe(true);
  });

  it('do not cure a note on the bar line, whose switch comes the lead before it', () => {
    const part = proof([
      [500, 1900],
      [2000, 2400],
      [2500, 2900],
    ]);
    expect(part.wrongFrom).toEqual([{ from: 2, to: 2, wrongNotes: 2 }]);
    expect(part.cures).toEqual([]);
    const atOnce = { ...map, switching: { ...map.switching, lead: { unit: 'ms', ms: 0 } as const } };
    const music = [...note(500, 1900, 60), ...note(2000, 2400, 60), ...note(2500, 2900, 60)];
    const meant = [500, 2000, 2500].map((tick) => [tick, 60, 'one'] as const);
    const [other] = proofOf({ map: atOnce, meant, output: [...tap(500, 0), ...music] }).parts;
    expect(other?.cures[0]).toMatchObject({ wrongBars: 0 });
  });

  it('tell what they leave where none cures all', () => {
    const part = proof([
      [500, 1900],
      [2000, 2400],
      [4500, 4900],
    ]);
    expect(part.wrongFrom).toEqual([
      { from: 2, to: 2, wrongNotes: 2 },
      { from: 3, to: 3, wrongNotes: 1 },
    ]);
    expect(part.cures[0]).toMatchObject({ wrongBars: 1, moreSwitches: 1 });
  });
});
