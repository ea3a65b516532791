import { describe, expect, it } from 'vitest';
import { balanceLane, scaleOf } from '../../../../src/sheet/page/lanes/balance.js';
import { curveLane } from '../../../../src/sheet/page/lanes/curve.js';
import { curveFoot, type Lane, riseAbove } from '../../../../src/sheet/page/lanes/lane.js';
import { strikesLane } from '../../../../src/sheet/page/lanes/strikes.js';
import { switchesLane } from '../../../../src/sheet/page/lanes/switches.js';
import { sheetNote, sheetPart, sheetSwitch } from '../support.js';

/** Ticks are units, from 100 to 1100. */
const columns = { from: 0, to: 1000, left: 100, right: 1100, xAt: (tick: number) => 100 + tick };
const lane = (part = sheetPart()): Lane => ({ part, columns, y: 2000, rise: curveHeight });
const curveHeight = 520;
const foot = 2000 - curveFoot;

it('a curve stays below the lowest head, but keeps some height', () => {
  expect(riseAbove(2000, [], 900)).toBe(520);
  expect(riseAbove(2000, [1000, 1400], 900)).toBe(foot - 1400 - 150);
  expect(riseAbove(2000, [1990], 900)).toBe(200);
  // A stem of four spaces of 180 hangs from it.
  expect(riseAbove(2000, [800], 900)).toBe(foot - 800 - 720 - 150);
});

describe('the curve', () => {
  const curve = (points: readonly { readonly tick: number; readonly value: number }[]) =>
    curveLane(lane(sheetPart({ curve: { controller: 1, points, marks: [{ mark: 'p', value: 64 }] } })));

  it('holds each value until the next, from what was set before the system', () => {
    const drawn = curve([
      { tick: -10, value: 0 },
      { tick: 500, value: 127 },
      { tick: 1000, value: 3 },
    ]);
    expect(drawn).toContain(`<path class="over" d="M100 ${foot}H600V${foot - curveHeight}H1100"/>`);
    expect(drawn).toContain('>p</text>');
  });

  it('begins with the first value where there is none before', () => {
    expect(curve([{ tick: 250, value: 0 }])).toContain(`d="M350 ${foot}H1100"`);
    expect(curve([{ tick: 1500, value: 9 }])).toBe('');
  });
});

it('velocities are strokes as high as they are', () => {
  const notes = [sheetNote('a', 10, { isStruck: true, velocity: 127 }), sheetNote('b', 20)];
  expect(strikesLane(lane(), notes)).toBe(`<path class="strikes" d="M110 ${foot}V${foot - curveHeight}"/>`);
});

describe('switches', () => {
  it('have a bar as long as their lead, and say what is sent to who points at them', () => {
    const drawn = switchesLane(lane(), [sheetSwitch(100)]);
    expect(drawn).toContain('<path class="lead" d="M200 2000H224"/>');
    expect(drawn).toContain('<title>sustain: C-2, 25.0 ms before its note</title>');
  });

  it('leave out texts that would stand in each other', () => {
    const wide = { ...lane(), columns: { ...columns, to: 4000, right: 4100 } };
    const of = (tick: number) => sheetSwitch(tick, { layer: 'bite' });
    const drawn = switchesLane(wide, [of(100), of(150), of(2000)]);
    expect([...drawn.matchAll(/<text x="(\d+)"/gu)].map(([, x]) => x)).toEqual(['200', '2100']);
    expect(drawn.match(/class="sent"/gu)).toHaveLength(3);
  });

  it('say the last of a layer in a system to the left of it', () => {
    const wide = { ...lane(), columns: { ...columns, to: 4000, right: 4100 } };
    const [, x] = /<text x="(\d+)"/u.exec(switchesLane(wide, [sheetSwitch(3990, { layer: 'bite' })])) ?? [];
    expect(Number(x)).toBeLessThan(3600);
  });

  it('show names as text', () => {
    expect(switchesLane(lane(), [sheetSwitch(1, { layer: '<b>', sent: '&' })])).toContain('&lt;b&gt;: &amp;');
  });
});

describe('balance', () => {
  const bars = [{ bar: 7, bars: 1, tick: 0, endTick: 1000, system: 0 }];
  const of = (loudness: number, name: string) => ({
    name,
    kind: 'horn' as const,
    players: 4,
    level: 4,
    role: 'harmony' as const,
    loudness,
  });
  const balance = [
    {
      bar: 7,
      phrase: { from: 7, to: 7 },
      sections: [of(-6, 'Horns'), of(-26, 'Oboe')],
      covered: [{ name: 'Oboe', by: 'Horns', excess: 20, suggested: -17 }],
    },
  ];

  it('has a row for each section, and says what is covered in words and by shape', () => {
    const { markup, height } = balanceLane(scaleOf(balance), bars, [{ left: 0, right: 4000 }], 100);
    expect(markup.match(/<rect/gu)).toHaveLength(2);
    expect(markup).toContain('−6.0 dB<');
    expect(markup).toContain('class="loud covered"');
    expect(markup).toContain('−26.0 dB ◂ under Horns');
    expect(height).toBeGreaterThan(0);
  });

  it('has bars as long as they are loud, on one scale, however soft all of it is', () => {
    const widths = (...loudness: readonly number[]) => {
      const sections = loudness.map((one, index) => of(one, `${index}`));
      const scale = scaleOf([{ bar: 7, phrase: { from: 7, to: 7 }, sections, covered: [] }]);
      const { markup } = balanceLane(scale, bars, [{ left: 0, right: 4900 }], 100);
      return [...markup.matchAll(/width="([^"]*)"/gu)].map(([, width]) => width);
    };
    // Of 4,000 units: 0 dB is the whole of them, −40 dB none but a sliver.
    expect(widths(0, -20, -40)).toEqual(['4000', '2000', '20']);
    expect(widths(-40, -40)).toEqual(['20', '20']);
    expect(widths(-70, -50)).toEqual(['20', '20']);
  });

  it('takes no room where no two sections play', () => {
    expect(balanceLane(scaleOf([]), bars, [{ left: 0, right: 4000 }], 100)).toEqual({
      markup: '',
      height: 0,
    });
  });
});
