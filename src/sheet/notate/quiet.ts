import type { Clock } from '../../midi/index.js';
import { type BarSpan, barByBar, isSameMeter, type Measure, measureOfTick, measuresOf } from './measures.js';
import { measureAt } from './release.js';
import type { Voices } from './staff.js';
import type { ScoreToNotate } from './types.js';

/** So many bars of silence are written as one many-bar rest, at least. Own figure, no source. */
const SILENT = 4;

/** So many bars in which notes are held and nothing else happens are written as one, at least. Own figure, no source. */
const HELD = 16;

/** What says which bars have anything in them. */
export interface Happenings {
  readonly clock: Clock;
  readonly staves: readonly {
    readonly notes: readonly { readonly tick: number; readonly endTick: number }[];
  }[];
  /** Other ticks whose bars are written out. */
  readonly ticks: readonly number[];
}

/**
 * The bars up to and with the one numbered `last`: each for itself where a note may begin or end as it is written, which
 * may be a bar off; those between together. The work follows the notes, however many bars there are.
 */
export function roomFor({ clock, staves, ticks }: Happenings, last: number): readonly BarSpan[] {
  const needed = new Set([1, 2, last - 1, last].filter((bar) => bar >= 1 && bar <= last));
  // A release may lie behind the last bar, in which it then ends.
  const need = (bar: number) => {
    for (const near of [bar - 1, bar, bar + 1]) needed.add(Math.max(1, Math.min(near, last)));
  };
  const barAt = (tick: number) => clock.position(tick)?.bar ?? 1;
  for (const { notes } of staves)
    for (const { tick, endTick } of notes) {
      need(barAt(tick));
      need(barAt(endTick));
    }
  for (const tick of ticks) need(barAt(tick));
  for (const bar of clock.meterBars ?? []) need(bar);
  const spans: BarSpan[] = [];
  let next = 1;
  for (const bar of [...needed].sort((a, b) => a - b)) {
    if (bar > next) spans.push({ bar: next, bars: bar - next });
    spans.push({ bar, bars: 1 });
    next = bar + 1;
  }
  return spans;
}

/** The measures as they are written: many quiet bars as one, all others each for itself. */
export function gathered(
  room: readonly Measure[],
  voices: readonly Voices[],
  { clock, chords, keys }: Pick<ScoreToNotate, 'clock' | 'chords' | 'keys'>,
): readonly Measure[] {
  const busy = new Set<Measure | undefined>();
  for (const { start, end } of voices.flat(2)) busy.add(measureAt(room, start)).add(measureAt(room, end - 1));
  for (const { tick } of chords) busy.add(measureOfTick(room, tick));
  // A key holds from the next bar line on.
  const opening = new Set(keys.flatMap(({ tick }) => (tick > 0 ? [measureOfTick(room, tick - 1)?.bar] : [])));
  const groups: Measure[][] = [];
  for (const measure of room) {
    const open = groups.at(-1);
    const before = open?.at(-1);
    const goesOn =
      before && !busy.has(measure) && !busy.has(before) && isSameMeter(before.meter, measure.meter);
    if (goesOn && !opening.has(before.bar)) open?.push(measure);
    else groups.push([measure]);
  }
  const isHeld = holding(voices);
  const spans = groups.flatMap((group) => {
    const first = group[0];
    if (!first) return [];
    const whole = { bar: first.bar, bars: group.reduce((sum, { bars }) => sum + bars, 0) };
    const isQuiet = !busy.has(first) && whole.bars >= (isHeld(first) ? HELD : SILENT);
    return isQuiet ? [whole] : barByBar(whole);
  });
  return measuresOf(clock, spans);
}

/** Whether any note sounds all through a measure, asked for in order. */
function holding(voices: readonly Voices[]): (measure: Measure) => boolean {
  const lines = voices.flat().map((events) => ({ events, at: 0 }));
  return ({ start, end }) =>
    lines.some((line) => {
      while ((line.events[line.at]?.end ?? Number.POSITIVE_INFINITY) <= start) line.at += 1;
      return (line.events[line.at]?.start ?? Number.POSITIVE_INFINITY) < end;
    });
}

/** The indices of measures of many bars through which a staff's notes are held. */
export function heldMeasures(voices: Voices, measures: readonly Measure[]): ReadonlySet<number> {
  const isHeld = holding([voices]);
  const held = new Set<number>();
  measures.forEach((measure, index) => {
    if (measure.bars > 1 && isHeld(measure)) held.add(index);
  });
  return held;
}
