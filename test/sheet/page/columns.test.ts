import { describe, expect, it } from 'vitest';
import { columnsOf, halfHead } from '../../../src/sheet/page/columns.js';

const bars = [
  { bar: 1, bars: 1, tick: 0, endTick: 1920, system: 0 },
  { bar: 2, bars: 1, tick: 1920, endTick: 3840, system: 0 },
];
const system = {
  width: 5000,
  height: 1000,
  markup: '',
  signs: new Map(),
  places: new Map([
    ['a', { x: 1000, y: 0 }],
    ['b', { x: 1500, y: 0 }],
    ['c', { x: 3000, y: 0 }],
  ]),
  staves: [
    {
      top: 0,
      bottom: 720,
      bars: [
        { left: 500, right: 2500 },
        { left: 2500, right: 4800 },
      ],
    },
  ],
};
const positions = new Map([
  ['a', 0],
  ['b', 960],
  ['c', 1920],
]);

describe('columns', () => {
  const { xAt, left, right, from, to } = columnsOf(system, bars, positions);

  it('are at the middle of heads, and evenly between them', () => {
    expect(xAt(0)).toBe(1000 + halfHead);
    expect(xAt(480)).toBe(1250 + halfHead);
    expect(xAt(960)).toBe(1500 + halfHead);
    expect(xAt(1440)).toBe(2250 + halfHead);
  });

  it('end with the last bar line', () => {
    expect([from, to, left, right]).toEqual([0, 3840, 500, 4800]);
    expect(xAt(3840)).toBe(4800);
    expect(xAt(9999)).toBe(4800);
    expect(xAt(-5)).toBe(1000 + halfHead);
  });

  it('begin a bar without notes behind its bar line', () => {
    const empty = columnsOf({ ...system, places: new Map() }, bars, positions);
    expect(empty.xAt(1920)).toBe(2500 + 4 * halfHead);
  });

  it('never lead back, whatever stands where', () => {
    const crossed = new Map([...positions, ['d', 1000]]);
    const places = new Map([...system.places, ['d', { x: 900, y: 0 }]]);
    const columns = columnsOf({ ...system, places }, bars, crossed);
    const xs = Array.from({ length: 385 }, (_, index) => columns.xAt(index * 10));
    expect(xs.every((x, index) => index === 0 || x >= (xs[index - 1] ?? 0))).toBe(true);
  });
});
