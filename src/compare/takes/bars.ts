import type { CompiledPart } from '../../compile/index.js';
import { type AxisKind, axisOf, type SameBar } from './axis.js';

/** Bars that were put into a take, or (below 0) taken out of it. */
export interface BarShift {
  /** The last bar before them, as the second take counts; 0 for those at the beginning. */
  readonly after: number;
  readonly bars: number;
}

/** How one take is laid over the other. */
export interface Laid {
  readonly by: AxisKind;
  /** Where bars were put in or taken out. */
  readonly shift?: BarShift;
}

type Both = readonly (readonly [first: CompiledPart, second: CompiledPart])[];

/**
 * Lays one take over the other so that most notes are at one place: bar by bar; from the beginning on, where bars are counted
 * anew because of a time signature; or with bars put in or taken out behind those at the beginning that are alike.
 *
 * @param later how many bars of preroll the second take has more
 */
export function laidOver(parts: Both, later: number): Laid {
  const count = (by: AxisKind) =>
    parts.reduce((sum, [one, other]) => sum + notesAtOnePlace(one, other, by), 0);
  const bars: SameBar = (bar) => bar - later;
  let best: Laid = { by: bars };
  let most = count(bars);
  const shift = shiftOf(parts, later);
  for (const laid of [{ by: 'ticks' as const }, ...(shift ? [{ by: shifted(shift, later), shift }] : [])]) {
    const notes = count(laid.by);
    if (notes <= most) continue;
    most = notes;
    best = laid;
  }
  return best;
}

function notesAtOnePlace(first: CompiledPart, second: CompiledPart, by: AxisKind): number {
  const { place } = axisOf(first.line.clock, second.line.clock, by);
  const spots = new Set(first.line.notes.map(({ pitch, tick }) => `${pitch} ${tick}`));
  return second.line.notes.filter(({ pitch, tick }) => spots.has(`${pitch} ${place(tick)}`)).length;
}

function shifted({ after, bars }: BarShift, later: number): SameBar {
  return (bar) => {
    if (bar <= after) return bar - later;
    return bar <= after + bars ? null : bar - bars - later;
  };
}

/** By how many bars one take is longer, behind those at the beginning that are alike. */
function shiftOf(parts: Both, later: number): BarShift | undefined {
  const first = contents(parts.map(([one]) => one));
  const second = contents(parts.map(([, other]) => other));
  const [last, end] = [lastBar(first), lastBar(second) - later];
  if (last === end) return undefined;
  let alike = 0;
  while (
    alike < Math.min(last, end) &&
    (first.get(alike + 1) ?? '') === (second.get(alike + 1 + later) ?? '')
  )
    alike += 1;
  return { after: alike + later, bars: end - last };
}

/** What the bars have in them, note by note; silent bars are missing. */
function contents(parts: readonly CompiledPart[]): ReadonlyMap<number, string> {
  const bars = new Map<number, string[]>();
  for (const [index, { line }] of parts.entries()) {
    const { clock } = line;
    for (const { tick, pitch } of line.notes) {
      const bar = clock.position(tick)?.bar;
      if (bar === undefined) continue;
      const offset = (tick - (clock.barStart(bar) ?? 0)) / (clock.ticksPerWhole ?? 1);
      const note = `${index} ${pitch} ${offset}`;
      const notes = bars.get(bar);
      if (notes) notes.push(note);
      else bars.set(bar, [note]);
    }
  }
  return new Map([...bars].map(([bar, notes]) => [bar, notes.sort().join('\n')]));
}

function lastBar(bars: ReadonlyMap<number, string>): number {
  let last = 0;
  for (const bar of bars.keys()) if (bar > last) last = bar;
  return last;
}
