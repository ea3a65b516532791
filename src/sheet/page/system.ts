import type { EngravedSystem } from '../engrave/index.js';
import type { NotatedBar, Notation } from '../notate/index.js';
import type { Sheet } from '../types.js';
import { columnsOf, halfHead } from './columns.js';
import { noteLabel } from './data.js';
import { type BalanceScale, balanceLane } from './lanes/balance.js';
import { curveLane } from './lanes/curve.js';
import { type Lane, riseAbove } from './lanes/lane.js';
import { runsLane } from './lanes/runs.js';
import { strikesLane } from './lanes/strikes.js';
import { switchesLane } from './lanes/switches.js';
import { at, plain } from './markup.js';
import type { Slice } from './slices.js';

/** The radius within which a head is pointed at; of several, the nearest is meant. On a usual screen some 13 px. */
const reach = 245;

/** A staff of a system: what its part has there. */
interface StaffSlice extends Slice {
  /** The index of the part. */
  readonly part: number;
}

/** What a system shows a part of. */
interface Whole extends Pick<Sheet, 'parts'> {
  readonly balance: BalanceScale;
  /** Notes at which the keyboard enters a part; the page's script moves on from there. */
  readonly entries: ReadonlySet<string>;
  /** The indices of parts that have more than one articulation. */
  readonly changes: ReadonlySet<number>;
}

/** A drawn system. Unit of lengths: that of its view box. */
export interface DrawnSystem {
  readonly markup: string;
  readonly width: number;
  readonly height: number;
}

/** The parts' names are set in whatever serif font is there, up to so much wider than the engraver reckons with. */
const widerNames = 0.3;

/**
 * One system of the sheet: the engraved music, and the lanes that belong to it.
 *
 * @param slices of the parts that have a staff in it, from the top
 */
export function systemMarkup(
  { parts, balance, entries, changes }: Whole,
  system: EngravedSystem,
  bars: readonly NotatedBar[],
  positions: Notation['positions'],
  slices: readonly StaffSlice[],
): DrawnSystem {
  const columns = columnsOf(system, bars, positions);
  const { staves, places, width, height } = system;
  const lanes = slices.map((slice, index): string => {
    const part = parts[slice.part];
    const y = staves[2 * index + 1]?.top;
    if (y === undefined || !part) return '';
    const heads = slice.notes.flatMap(({ id }) => places.get(id)?.y ?? []);
    const { top = 0, bottom = 0 } = staves[2 * index] ?? {};
    const lane: Lane = { part, columns, y, rise: riseAbove(y, heads, (top + bottom) / 2) };
    const runs = runsLane(lane, slice.runs, changes.has(slice.part));
    return curveLane(lane) + strikesLane(lane, slice.notes) + runs + switchesLane(lane, slice.switches);
  });
  const heads = slices.flatMap(({ notes, part: index }) =>
    notes.map((note) => {
      const { id, layers } = note;
      const part = parts[index];
      const place = places.get(id);
      if (!place || !part) return '';
      const [x, y] = [place.x + halfHead, place.y];
      const mark =
        layers.length === 0
          ? ''
          : `<path class="layered" d="M${at(x)} ${at(y - 200)}l220 200l-220 200l-220 -200z"/>`;
      const entry = entries.has(id) ? ' tabindex="0"' : '';
      const label = `role="img" aria-label="${plain(noteLabel(part, note))}"`;
      return `${mark}<circle class="head" data-note="${id}"${entry} ${label} cx="${at(x)}" cy="${at(y)}" r="${reach}"/>`;
    }),
  );
  const drawn = staves[0]?.bars ?? [];
  const targets = bars.map(({ bar }, index) => {
    const { left = 0, right = 0 } = drawn[index] ?? {};
    const foot = (staves.at(-1)?.top ?? 0) + 300;
    const top = staves[0]?.top ?? 0;
    const number = `<text class="number" x="${at(left + 40)}" y="260" font-size="300">${bar}</text>`;
    return `${number}<path class="number" d="M${at(left)} 60V280"/><rect class="bar" id="bar-${bar}" x="${at(left)}" y="${at(top)}" width="${at(right - left)}" height="${at(foot - top)}"/>`;
  });
  // Under the last time line there is room for the texts of its switches.
  const foot = Math.max(height, (staves.at(-1)?.top ?? 0) + 620);
  const resting = new Set(parts.map(({ name }) => name));
  for (const { part } of slices) resting.delete(parts[part]?.name ?? '');
  const rows = balanceLane(balance, bars, drawn, foot + 100, resting);
  const whole = foot + 100 + rows.height;
  const { bar: from = 1, bars: many = 1 } = bars.at(-1) ?? {};
  const [first, last] = [bars[0]?.bar ?? 1, from + many - 1];
  const label = first === last ? `Bar ${first}` : `Bars ${first} to ${last}`;
  const before = widerNames * (drawn[0]?.left ?? 0);
  const box = `${at(-before)} 0 ${at(before + width)} ${at(whole)}`;
  // It can be moved sideways by keys, where it is wider than the window.
  const markup = `<section class="system" id="system-${first}" tabindex="0" aria-label="${label}"><svg viewBox="${box}" role="group" aria-label="${label}">${targets.join('')}${system.markup}${lanes.join('')}${rows.markup}${heads.join('')}</svg></section>`;
  return { markup, width: before + width, height: whole };
}
