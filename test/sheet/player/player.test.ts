import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  barAnchors,
  barAt,
  commandOf,
  lineAt,
  marked,
  noMarks,
  ordered,
  placeText,
  rangeOf,
} from '../../../src/sheet/player/index.js';

const bars = [
  { bar: 4, beats: [0, 500, 1000, 1500], toMs: 2000 },
  { bar: 5, beats: [2000, 2500, 3000], toMs: 3500 },
  { bar: 6, beats: [3500, 10_000], toMs: 65_000 },
];

describe('places', () => {
  it('are in the bar that has begun last', () => {
    expect([-5, 0, 1999, 2000, 3499.9, 99_999].map((ms) => barAt(bars, ms))).toEqual([0, 0, 0, 1, 1, 2]);
  });

  it('are told by bar, beat and time', () => {
    expect(placeText(bars, 64_999)).toBe('bar 6, beat 2, 1:04');
    expect(placeText(bars, 2999.9)).toBe('bar 5, beat 2, 0:02');
    expect(placeText(bars, 0)).toBe('bar 4, beat 1, 0:00');
    expect(placeText([], 500)).toBe('0:00');
  });
});

describe('the line', () => {
  const anchors = ordered([
    { ms: 0, system: 0, x: 100 },
    { ms: 1000, system: 0, x: 300 },
    // struck with the note before, and drawn behind it
    { ms: 1000, system: 0, x: 340 },
    // an early note of the next chord stands where that chord stands
    { ms: 1950, system: 0, x: 520 },
    { ms: 2000, system: 0, x: 500 },
    { ms: 4000, system: 1, x: 80 },
  ]);
  const at = (ms: number) => lineAt(anchors, ms, 6000, () => 900);

  it('stands on a head when it is heard, and between heads in proportion', () => {
    expect(at(1000)).toEqual({ system: 0, x: 300 });
    expect(at(500)).toEqual({ system: 0, x: 200 });
  });

  it('goes to the end of a system behind its last head, and to that of the last with the sound', () => {
    expect(at(3999.999)?.x).toBeCloseTo(900, 2);
    expect(at(4000)).toEqual({ system: 1, x: 80 });
    expect(at(5000)).toEqual({ system: 1, x: 490 });
    expect(at(9000)).toEqual({ system: 1, x: 900 });
  });

  it('stands before the first head until that is heard, and nowhere without heads', () => {
    expect(lineAt([{ ms: 50, system: 2, x: 7 }], 0, 100, () => 9)).toEqual({ system: 2, x: 7 });
    expect(lineAt([], 0, 100, () => 9)).toBeUndefined();
  });

  it('never goes back while the sound goes on', () => {
    const anchor = fc.record({
      ms: fc.integer({ min: 0, max: 5000 }),
      system: fc.integer({ min: 0, max: 3 }),
      x: fc.integer({ min: 0, max: 900 }),
    });
    fc.assert(
      fc.property(fc.array(anchor, { minLength: 1 }), (given) => {
        let before = { system: 0, x: Number.NEGATIVE_INFINITY };
        for (let ms = 0; ms <= 6000; ms += 100) {
          const place = lineAt(ordered(given), ms, 6000, () => 900);
          if (!place) throw new Error('no place');
          const isAhead =
            place.system > before.system || (place.system === before.system && place.x >= before.x);
          expect(isAhead).toBe(true);
          before = place;
        }
      }),
    );
  });
});

describe('bars', () => {
  const heads = [
    { ms: 0, system: 0, x: 100 },
    { ms: 1970, system: 0, x: 300 },
  ];
  const edge = (ms: number) => ({ ms, system: 1, x: ms });

  it('lead the line where nothing begins at their beginning', () => {
    expect(barAnchors(heads, [edge(0), edge(2000), edge(4000)])).toEqual([edge(4000)]);
    expect(barAnchors([], [edge(0)])).toEqual([edge(0)]);
  });
});

describe('marks', () => {
  it('begin with one bar, and widen to another', () => {
    expect(marked(noMarks, 1)).toEqual({ first: 1, last: 1 });
    expect(marked({ first: 1, last: 1 }, 4)).toEqual({ first: 1, last: 4 });
    expect(marked({ first: 1, last: 4 }, 0)).toEqual({ first: 0, last: 4 });
  });

  it('narrow to a bar within them, and go where it is the only one', () => {
    expect(marked({ first: 1, last: 4 }, 2)).toEqual({ first: 2, last: 2 });
    expect(marked({ first: 2, last: 2 }, 2)).toBeUndefined();
  });

  it('are heard from the beginning of the first to the end of the last', () => {
    expect(rangeOf({ first: 0, last: 1 }, bars)).toEqual({ fromMs: 0, toMs: 3500 });
    expect(rangeOf({ first: 0, last: 9 }, bars)).toBeUndefined();
    // a sound may begin in the middle of a bar
    expect(rangeOf({ first: 0, last: 0 }, [{ bar: 9, beats: [-700, 300], toMs: 1300 }])).toEqual({
      fromMs: 0,
      toMs: 1300,
    });
  });
});

describe('keys', () => {
  const key = (name: string, more = {}) =>
    commandOf({ key: name, altKey: false, ctrlKey: false, metaKey: false, ...more });

  it('are known in either case, and leave the browser its own', () => {
    expect([key('h'), key('H'), key('Enter'), key('b'), key('x'), key(' ')]).toEqual([
      ...['turn', 'turn', 'from-note', 'mark', undefined, undefined],
    ]);
    // the page's own: src/sheet/page/client/main.ts
    for (const own of ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown', 'Home', 'End', 'Escape', 'Tab'])
      expect(key(own)).toBeUndefined();
    expect(key('h', { ctrlKey: true })).toBeUndefined();
  });
});
