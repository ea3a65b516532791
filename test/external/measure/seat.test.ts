import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { measureBounce, probePlan, probeSong } from '../../../src/sound/measure/index.js';
import { articulation, libraryOf } from '../../sound/measure/library.js';
import { clicksOf } from './library.js';
import { mix, type Voice } from './mix.js';
import { reading, render, roomOf, samplesOf } from './render.js';

// Sounds of a free SoundFont, summed to one channel and put at known places by the pan law of RP-036.
const folder = mkdtempSync(join(tmpdir(), 'keyslip-seat-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const libraryWith = (program: number) =>
  libraryOf([articulation('long', { switch: [{ kind: 'program', program }] })], { controller: 11 });
const library = libraryWith(60);
const plan = probePlan(library, { quick: true });
const programs = [60, 57, 61, 68, 71];

let click: Voice;
/** Five instruments that play the same, each as loud as the others. */
let voices: readonly Voice[];

beforeAll(async () => {
  // The click is not of the library: its programs differ.
  click = { file: clicksOf(folder, plan) };
  voices = await Promise.all(
    programs.map(async (program) => {
      const own = libraryWith(program);
      const file = render(folder, `program-${program}`, probeSong(plan, own));
      const [left = new Float32Array(0)] = await samplesOf(file);
      const power = left.reduce((sum, value) => sum + value * value, 0) / left.length;
      return { file, gain: 0.01 / Math.sqrt(power) };
    }),
  );
}, 600_000);

async function placeOf(placed: readonly Voice[], name: string, inHall = false) {
  const plain = await mix(join(folder, `${name}.wav`), [...placed, click]);
  if (!inHall) return measureBounce(library, reading(plain));
  const room = await roomOf(folder, plain, 2, -6);
  const wet = await mix(join(folder, `${name}-hall.wav`), [{ file: plain }, { file: room }], { noise: -70 });
  return measureBounce(library, reading(wet));
}

describe('where a recording sits', () => {
  it.each([-0.8, -0.35, 0, 0.5])(
    'at %d: found within 0.05 dry, 0.1 in a hall; a point is narrow',
    async (seat) => {
      const [voice] = voices;
      const placed = voice ? [{ ...voice, seat }] : [];
      const dry = await placeOf(placed, 'point');
      const hall = await placeOf(placed, 'point', true);
      console.log(
        `seat ${seat}: dry ${dry.seat?.toFixed(3)}, hall ${hall.seat?.toFixed(3)}; width 0: dry ${dry.width?.toFixed(2)}, hall ${hall.width?.toFixed(2)}`,
      );
      expect(dry.bounce.clicks).toBe('both');
      expect(Math.abs((dry.seat ?? 9) - seat)).toBeLessThan(0.05);
      expect(Math.abs((hall.seat ?? 9) - seat)).toBeLessThan(0.1);
      expect(dry.width).toBeLessThan(0.2);
    },
  );

  it.each([
    [0, 0.4],
    [0, 0.9],
    [-0.3, 0.5],
  ])(
    'five instruments around %d over %d of the stage: seat within 0.05, width within 0.2',
    async (seat, width) => {
      // They do not begin together, and the first are where the seat is heard: so they sit in both orders.
      const found = [];
      for (const side of [1, -1]) {
        const spread = voices.map((voice, index) => ({
          ...voice,
          seat: seat + side * width * (0.4 * index - 0.8),
        }));
        found.push(await placeOf(spread, 'wide'));
      }
      const middle = found.reduce((sum, one) => sum + (one.seat ?? 9), 0) / 2;
      console.log(
        `seat ${seat}, width ${width}: ${middle.toFixed(3)}, ${found.map((one) => one.width?.toFixed(2))}`,
      );
      expect(Math.abs(middle - seat)).toBeLessThan(0.05);
      for (const one of found) expect(Math.abs((one.width ?? 9) - width)).toBeLessThan(0.2);
    },
  );
});
