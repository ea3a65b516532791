import { expect, it } from 'vitest';
import { overviewMarkup } from '../../../../src/sheet/page/overview/index.js';
import type { Sheet } from '../../../../src/sheet/types.js';
import { clockWith } from '../../notate/scores.js';
import { sheetNote, sheetPart } from '../support.js';

const bar = 1920;
const bars = (count: number, perSystem: number) =>
  Array.from({ length: count }, (_, at) => ({
    bar: at + 1,
    bars: 1,
    tick: at * bar,
    endTick: (at + 1) * bar,
    system: Math.floor(at / perSystem),
  }));
const section = { kind: 'horn' as const, players: 1, level: 2, loudness: -3 };
const sheet: Sheet = {
  title: '',
  source: '',
  clock: clockWith(),
  endTick: 8 * bar,
  parts: [
    sheetPart({ name: 'Horns <b>', notes: [sheetNote('a', 0), sheetNote('b', 2 * bar)] }),
    sheetPart({ name: 'Drums', notes: [sheetNote('c', 2 * bar, { isStruck: true, velocity: 90 })] }),
  ],
  harmony: [],
  balance: [
    {
      bar: 3,
      phrase: { from: 3, to: 3 },
      sections: [{ ...section, name: 'Horns <b>', role: 'melody' }],
      covered: [],
    },
  ],
  remarks: [],
};

it('leads to each system, and says who plays there, who has the tune, and how loud it gets', () => {
  const markup = overviewMarkup(sheet, bars(6, 2));
  const links = [...markup.matchAll(/<a href="#system-(\d+)" aria-label="([^"]*)"/gu)].map(
    ([, at, label]) => [Number(at), label],
  );
  expect(links).toEqual([
    // Velocity 80 lies between mf, 75, and f, 90.
    [1, 'bars 1–2: Horns &lt;b&gt;; up to mf'],
    [3, 'bars 3–4: Horns &lt;b&gt;, Drums; the tune in Horns &lt;b&gt;; up to f'],
    [5, 'bars 5–6: nobody plays'],
  ]);
  // The third bar of six.
  expect(markup).toContain('<rect class="tune" x="33.33%" width="16.67%"');
  expect(markup).toContain('<li>Horns &lt;b&gt;</li>');
});

it('is left out where one system is all there is', () => {
  expect(overviewMarkup(sheet, bars(4, 4))).toBe('');
  expect(overviewMarkup(sheet, [])).toBe('');
});

it('leads to 60 places at most, which together are the whole piece', () => {
  const markup = overviewMarkup(sheet, bars(1000, 3));
  const links = [...markup.matchAll(/href="#system-(\d+)" aria-label="bars (\d+)–(\d+):/gu)].map((found) =>
    found.slice(1).map(Number),
  );
  expect(links.length).toBeGreaterThan(40);
  expect(links.length).toBeLessThanOrEqual(60);
  links.forEach(([at, from, to = 0], index) => {
    expect(at).toBe(from);
    expect(links[index + 1]?.[1] ?? 1001).toBe(to + 1);
  });
});
