import { defaultChordWindow } from '../../map/index.js';
import { type Clock, groupOnsets, struckTogether } from '../../midi/index.js';
import { findGrid } from '../../timing/index.js';
import { pulseOf } from './division.js';
import { type Measure, measureOfTick, unitAt, WHOLE } from './measures.js';
import { type Grid, stepAt } from './release.js';
import { joinRolled, type Struck } from './rolled.js';
import type { NoteToNotate } from './types.js';

/** Notes struck together, at their written place. */
export interface WrittenOnset {
  /** In units; places of a staff rise strictly. */
  readonly place: number;
  /** When it was struck. */
  readonly tick: number;
  readonly notes: readonly NoteToNotate[];
}

/** The onsets of a staff and the grid that they stand on. */
export interface WrittenOnsets {
  readonly onsets: readonly WrittenOnset[];
  /** Into how many equal parts a pulse is divided, by the unit at which it begins; pulses without onsets are missing. */
  readonly parts: ReadonlyMap<number, number>;
}

/** Notes within a 512th of an onset's first belong to it, too: only below 14 quarters a minute is that longer, and no grid could part them. */
const finest = { unit: 'whole', numerator: 1, denominator: 512 } as const;

interface RefinedGrid extends Grid {
  readonly parts: Map<number, number>;
}

/** Pulses of one length that follow each other without a break. */
interface Section {
  readonly start: number;
  readonly pulse: number;
  readonly onsets: { readonly tick: number; readonly at: number }[];
}

/** Puts a staff's notes on the grid that they were played on. */
export function writtenOnsets(
  notes: readonly NoteToNotate[],
  clock: Clock,
  measures: readonly Measure[],
): WrittenOnsets {
  const struck = struckOnsets(notes, clock);
  const parts = new Map<number, number>();
  const places = sections(struck, measures).flatMap((section) => sectionPlaces(section, clock, parts));
  const onsets: WrittenOnset[] = [];
  let before = -1;
  struck.forEach((onset, index) => {
    const place = free(places[index] ?? 0, before, places[index + 1], { measures, parts });
    onsets.push({ ...onset, place });
    before = place;
  });
  return { onsets, parts };
}

function struckOnsets(notes: readonly NoteToNotate[], clock: Clock): readonly Struck[] {
  const groups = struckTogether(notes, clock, defaultChordWindow).map((group) => ({
    tick: group[0]?.tick ?? 0,
    group,
  }));
  const struck = groupOnsets(groups, clock, finest).map((near) => ({
    tick: near[0]?.tick ?? 0,
    notes: near.flatMap(({ group }) => group),
  }));
  return joinRolled(struck, clock);
}

function sections(struck: readonly Struck[], measures: readonly Measure[]): readonly Section[] {
  const found: Section[] = [];
  for (const { tick } of struck) {
    const measure = measureOfTick(measures, tick);
    if (!measure) continue;
    const pulse = pulseOf(measure.meter);
    const onset = { tick, at: unitAt(measures, tick) };
    const open = found.at(-1);
    if (open?.pulse === pulse && (measure.start - open.start) % pulse === 0) open.onsets.push(onset);
    else found.push({ start: measure.start, pulse, onsets: [onset] });
  }
  return found;
}

function sectionPlaces(
  { start, pulse, onsets }: Section,
  clock: Clock,
  parts: Map<number, number>,
): readonly number[] {
  const ticks = Math.max(1, Math.round((pulse * (clock.ticksPerWhole ?? 0)) / WHOLE));
  const found = findGrid({
    beats: Float64Array.from(onsets, ({ at }) => (at - start) / pulse),
    msPerBeat: Float64Array.from(onsets, ({ tick }) => clock.ms(tick + ticks) - clock.ms(tick)),
  });
  for (const { beat, parts: count } of found.beats) parts.set(start + beat * pulse, count);
  return Array.from(found.places, (place) => start + Math.round(place * pulse));
}

/**
 * Sections know nothing of each other: an onset ahead of the bar line between two of them may have the first place of
 * the later one, which then is free no more. What stood there takes the next one, for which the grid is refined.
 */
function free(place: number, before: number, next: number | undefined, grid: RefinedGrid): number {
  if (place > before) return place;
  const { from, step } = stepAt(before, grid, 1);
  let finer = step;
  while (next !== undefined && before + finer >= next) finer /= 2;
  if (finer < step) grid.parts.set(from, (grid.parts.get(from) ?? 1) * (step / finer));
  return before + finer;
}
