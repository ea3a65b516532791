import type { NoteToNotate } from '../model/notation.js';
import type { Clock } from '../time/clock.js';
import { findGrid } from '../timing/grid/index.js';
import { groupOnsets } from '../understand/onsets.js';
import { pulseOf } from './division.js';
import { type Measure, unitAt } from './measures.js';

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

/** Notes within this of an onset's first belong to it, as where no map says otherwise. */
const together = { unit: 'ms', ms: 35 } as const;

/** So do notes within a 512th of it: only below 14 quarters a minute is that longer, and no grid could part them. */
const finest = { unit: 'whole', numerator: 1, denominator: 512 } as const;

interface Struck {
  readonly tick: number;
  readonly notes: readonly NoteToNotate[];
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
  const struck = struckTogether(notes, clock);
  const parts = new Map<number, number>();
  const places = sections(struck, clock, measures).flatMap((section) => sectionPlaces(section, clock, parts));
  const onsets: WrittenOnset[] = [];
  let before = -1;
  struck.forEach((onset, index) => {
    const place = free(places[index] ?? 0, before, places[index + 1]);
    if (place !== places[index]) refine(place, onset.tick, clock, measures, parts);
    onsets.push({ ...onset, place });
    before = place;
  });
  return { onsets, parts };
}

function struckTogether(notes: readonly NoteToNotate[], clock: Clock): readonly Struck[] {
  const groups = groupOnsets(notes, clock, together).map((group) => ({ tick: group[0]?.tick ?? 0, group }));
  return groupOnsets(groups, clock, finest).map((near) => ({
    tick: near[0]?.tick ?? 0,
    notes: near.flatMap(({ group }) => group),
  }));
}

function sections(struck: readonly Struck[], clock: Clock, measures: readonly Measure[]): readonly Section[] {
  const found: Section[] = [];
  for (const { tick } of struck) {
    const measure = measures[(clock.position(tick)?.bar ?? 1) - 1];
    if (!measure) continue;
    const pulse = pulseOf(measure.meter);
    const onset = { tick, at: unitAt(clock, measures, tick) };
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
  const ticks = Math.max(1, Math.round((pulse * (clock.ticksPerWhole ?? 0)) / 3072));
  const found = findGrid(
    onsets.map(({ tick, at }) => ({
      beat: (at - start) / pulse,
      msPerBeat: clock.ms(tick + ticks) - clock.ms(tick),
    })),
  );
  for (const { beat, parts: count } of found.beats) parts.set(start + beat * pulse, count);
  return found.places.map((place) => start + Math.round(place * pulse));
}

/** Sections know nothing of each other: where their places meet, the later takes the next free one. */
function free(place: number, before: number, next: number | undefined): number {
  if (place > before) return place;
  let step = 192;
  while (step > 3 && next !== undefined && before + step >= next) step /= 2;
  return before + step;
}

function refine(
  place: number,
  tick: number,
  clock: Clock,
  measures: readonly Measure[],
  parts: Map<number, number>,
): void {
  const measure = measures[(clock.position(tick)?.bar ?? 1) - 1];
  if (!measure) return;
  const pulse = pulseOf(measure.meter);
  const offset = (place - measure.start) % pulse;
  const start = place - offset;
  const known = parts.get(start) ?? 1;
  let count = known;
  while ((offset * count) % pulse !== 0) count *= 2;
  parts.set(start, count);
}
