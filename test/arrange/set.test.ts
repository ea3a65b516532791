import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { setChords } from '../../src/arrange/set.js';
import { chordsOfSymbols } from '../../src/arrange/symbols.js';
import type { Chord, Stroke } from '../../src/arrange/types.js';
import { at, steady } from './clock.js';

const stroke = (bar: number, beat: number, beats = 0.4, velocity = 80): Stroke => {
  return { tick: at(bar, beat), endTick: at(bar, beat + beats), velocity };
};
const chords = (text: string) => chordsOfSymbols(text, steady).chords;

describe('setChords', () => {
  /**
   * Eight bars by hand: a rhythm as it may be sung in, accents on the beat, a push before bars 3, 5 and 7.
   */
  const rhythm = [
    ...[stroke(1, 1, 0.9, 110), stroke(1, 2.5, 0.4, 70), stroke(1, 4, 0.4, 72)],
    ...[stroke(2, 1, 0.9, 108), stroke(2, 2.5, 0.4, 71), stroke(2, 4.5, 1.4, 100)],
    ...[stroke(3, 2.5, 0.4, 74), stroke(3, 4, 0.4, 73)],
    ...[stroke(4, 1, 0.9, 109), stroke(4, 2.5, 0.4, 70), stroke(4, 4.5, 1.4, 101)],
    ...[stroke(5, 2.5, 0.4, 76), stroke(5, 4, 0.4, 75)],
    ...[stroke(6, 1, 0.9, 112), stroke(6, 4.5, 1.4, 102)],
    ...[stroke(7, 2, 0.4, 78), stroke(7, 4.5, 0.2, 60)],
    ...[stroke(8, 1, 3.5, 120)],
  ];
  const symbols = '| Dm | Gm | C7 | F | B♭ | Gm | A7 | Dm |';
  const expected = [0, 0, 0, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5, 6, 6, 6, 7];

  it('sets eight bars as they were worked out by hand', () => {
    const { notes, struck, remarks } = setChords(rhythm, chords(symbols), steady);
    expect(remarks).toEqual([]);
    expect(struck.map(({ chord }) => chord)).toEqual(expected);
    const last = notes.filter(({ stroke: of }) => of === 17);
    expect(last.map(({ pitch }) => pitch)).toEqual([50, 57, 62, 65]);
    expect(last.every(({ velocity, tick }) => velocity === 120 && tick === at(8, 1))).toBe(true);
    // The push before bar 3 strikes C7 on the last off-beat of bar 2.
    expect(notes.filter(({ tick }) => tick === at(2, 4.5)).map(({ pitch }) => pitch)).toEqual([
      48, 55, 58, 60, 64,
    ]);
  });

  it('says where the rhythm has no chord', () => {
    const strokes = [stroke(1, 1), stroke(9, 1), stroke(9, 2)];
    const late = chords('| C |').map((chord): Chord => ({ ...chord, tick: at(2, 1), endTick: at(3, 1) }));
    const { remarks, notes } = setChords(strokes, late, steady);
    expect(remarks.map(({ code, message }) => [code, message])).toEqual([
      ['stroke-before-chords', '1 stroke comes before the first chord'],
      ['chords-end', '2 strokes come behind the last chord'],
    ]);
    expect(new Set(notes.map(({ tick }) => tick)).size).toBe(3);
    expect(setChords([], late, steady).remarks[0]?.code).toBe('no-strokes');
    expect(setChords(strokes, [], steady).remarks[0]?.code).toBe('no-chords');
  });

  const strokes = fc
    .array(
      fc.record({
        gap: fc.integer({ min: 1, max: 900 }),
        length: fc.integer({ min: 1, max: 1200 }),
        velocity: fc.integer({ min: 1, max: 127 }),
      }),
      { minLength: 1, maxLength: 30 },
    )
    .map((list) => {
      let tick = 0;
      return list.map(({ gap, length, velocity }): Stroke => {
        tick += gap;
        return { tick, endTick: tick + length, velocity };
      });
    });
  const texts = fc
    .array(fc.constantFrom('C', 'Dm7', 'G7♭9', 'F/A', 'E♭maj7', 'Asus4'), { minLength: 1, maxLength: 12 })
    .map((list) => list.join(' '));

  it('has the same strokes, only notes of chords, and is the same each time', () => {
    fc.assert(
      fc.property(strokes, texts, (rhythm, text) => {
        const harmony = chords(text);
        const { notes, struck } = setChords(rhythm, harmony, steady);
        expect(setChords(rhythm, harmony, steady).notes).toEqual(notes);
        rhythm.forEach(({ tick, endTick, velocity }, index) => {
          const own = notes.filter((note) => note.stroke === index);
          const tones = harmony[struck[index]?.chord ?? -1]?.tones.map(({ pitch }) => pitch);
          expect(own.map(({ pitch }) => pitch)).toEqual(tones);
          for (const note of own) {
            expect([note.tick, note.velocity]).toEqual([tick, velocity]);
            const other = rhythm.find((_, at) => at > index && struck[at]?.chord !== struck[index]?.chord);
            const again = rhythm.find((_, at) => at > index && struck[at]?.chord === struck[index]?.chord);
            const limits = [other, again].map((one) => one?.tick ?? endTick);
            if (tones && new Set(tones).size === tones.length)
              expect(note.endTick).toBe(Math.min(endTick, ...limits));
          }
        });
        for (const [index, one] of notes.entries())
          for (const other of notes.slice(index + 1))
            if (other.pitch === one.pitch && other.tick > one.tick)
              expect(one.endTick).toBeLessThanOrEqual(other.tick);
      }),
    );
  });

  it('rolls only when it is asked to, near each stroke, and strokes keep their order', () => {
    fc.assert(
      fc.property(
        strokes,
        texts,
        fc.constantFrom('low-high' as const, 'unordered' as const),
        (rhythm, text, order) => {
          const plain = setChords(rhythm, chords(text), steady).notes;
          const { notes } = setChords(rhythm, chords(text), steady, { roll: { order } });
          expect(notes.map(({ pitch, velocity }) => [pitch, velocity])).toEqual(
            plain.map(({ pitch, velocity }) => [pitch, velocity]),
          );
          notes.forEach(({ tick, endTick, stroke: of }) => {
            const struckAt = rhythm[of]?.tick ?? 0;
            // 2.5 deviations either way at the most; from low to high all of it may lie ahead.
            expect(Math.abs(steady.ms(tick) - steady.ms(struckAt))).toBeLessThanOrEqual(75 + 1);
            expect(endTick).toBeGreaterThanOrEqual(tick);
            const before = rhythm[of - 1];
            if (before) expect(tick).toBeGreaterThanOrEqual(before.tick);
          });
        },
      ),
    );
  });
});
