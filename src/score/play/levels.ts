import { dynamicOf, firstVelocity, nearestMark, oneMarkFrom, velocityOfPercent } from '../loudness.js';
import type { Sign } from '../model.js';
import type { PlacedText } from './performance.js';

export interface PlacedSign {
  readonly tick: number;
  readonly item: Sign;
}

/** A level that is reached at a tick; gradually from the one before, where it ends a hairpin. */
export interface LevelPoint {
  readonly tick: number;
  readonly velocity: number;
  readonly isGradual: boolean;
}

interface Level {
  readonly tick: number;
  readonly velocity: number;
}

interface Hairpin {
  readonly from: number;
  to: number;
  readonly direction: 1 | -1;
}

/**
 * The course of a part's loudness. A dynamic holds until the next; a hairpin leads to the dynamic at its end, if that
 * lies its way, and else one mark further. Of a dynamic and a `sound` at one place the latter, which says more.
 */
export function levelPoints(
  signs: readonly PlacedSign[],
  endTick: number,
  ppq: number,
): readonly LevelPoint[] {
  const levels = levelsOf(signs);
  const hairpins = hairpinsOf(signs, levels, endTick);
  const points: LevelPoint[] = [{ tick: 0, velocity: firstVelocity, isGradual: false }];
  const now = () => points.at(-1)?.velocity ?? firstVelocity;
  let next = 0;
  const takeLevels = (until: number) => {
    for (let level = levels[next]; level && level.tick <= until; level = levels[++next])
      points.push({ ...level, isGradual: false });
  };
  for (const { from, to, direction } of hairpins) {
    takeLevels(from);
    const start = now();
    // printed a little behind its end, a dynamic still is what a hairpin leads to
    const goal = levels.slice(next).find(({ tick }) => tick >= to && tick <= to + ppq / 2);
    const isOnTheWay = goal !== undefined && (goal.velocity - start) * direction > 0;
    points.push({ tick: from, velocity: start, isGradual: false });
    points.push({
      tick: to,
      velocity: isOnTheWay ? goal.velocity : oneMarkFrom(start, direction),
      isGradual: true,
    });
  }
  takeLevels(Number.POSITIVE_INFINITY);
  return points;
}

function levelsOf(signs: readonly PlacedSign[]): readonly Level[] {
  const levels = new Map<number, number>();
  const accented = new Set<number>();
  for (const { tick, item } of signs) {
    if (item.kind === 'dynamic') {
      const { after } = dynamicOf(item.name);
      if (after === null) accented.add(tick);
      else levels.set(tick, after);
    }
    // beside an sf it is the accent that a sound describes, not what follows
    if (item.kind === 'loudness' && !accented.has(tick)) levels.set(tick, velocityOfPercent(item.percent));
  }
  return [...levels].map(([tick, velocity]) => ({ tick, velocity })).sort((a, b) => a.tick - b.tick);
}

function hairpinsOf(
  signs: readonly PlacedSign[],
  levels: readonly Level[],
  endTick: number,
): readonly Hairpin[] {
  const open = new Map<string, Hairpin>();
  const all: Hairpin[] = [];
  for (const { tick, item } of signs) {
    if (item.kind === 'open-hairpin') all.push({ from: tick, to: endTick, direction: item.direction });
    if (item.kind !== 'hairpin') continue;
    const before = open.get(item.number);
    if (before) before.to = tick;
    open.delete(item.number);
    if (item.direction === 0) continue;
    const hairpin: Hairpin = { from: tick, to: endTick, direction: item.direction };
    all.push(hairpin);
    open.set(item.number, hairpin);
  }
  const sorted = all.filter(({ from, to }) => to > from).sort((a, b) => a.from - b.from);
  return sorted.flatMap((hairpin, index) => {
    const level = levels.find(({ tick }) => tick > hairpin.from)?.tick ?? endTick;
    const to = Math.min(hairpin.to, level, sorted[index + 1]?.from ?? endTick);
    return to > hairpin.from ? [{ ...hairpin, to }] : [];
  });
}

/** The velocity at a tick, not rounded. Ticks must be asked for in order. */
export function levelReader(points: readonly LevelPoint[]): (tick: number) => number {
  let index = 0;
  return (tick) => {
    while ((points[index + 1]?.tick ?? Number.POSITIVE_INFINITY) <= tick) index += 1;
    const here = points[index];
    const next = points[index + 1];
    if (!here) return firstVelocity;
    if (!next?.isGradual) return here.velocity;
    const share = (tick - here.tick) / (next.tick - here.tick);
    return here.velocity + share * (next.velocity - here.velocity);
  };
}

/** The course of loudness as texts: marks of the scale, `[<]` and `[>]`. */
export function levelTexts(
  points: readonly LevelPoint[],
  signs: readonly PlacedSign[],
): readonly PlacedText[] {
  const texts: PlacedText[] = [];
  let said = '';
  points.forEach((point, index) => {
    const next = points[index + 1];
    const mark = nearestMark(point.velocity);
    if (index > 0 && (mark !== said || point.isGradual)) texts.push({ tick: point.tick, text: `[${mark}]` });
    if (index > 0) said = mark;
    if (next?.isGradual) {
      texts.push({ tick: point.tick, text: next.velocity > point.velocity ? '[<]' : '[>]' });
      said = '';
    }
  });
  return [...texts, ...sudden(signs)];
}

/** sf and its like, for one onset; of fp the loud beginning. */
function sudden(signs: readonly PlacedSign[]): readonly PlacedText[] {
  return signs.flatMap(({ tick, item }) => {
    if (item.kind !== 'dynamic') return [];
    const { at, accent } = dynamicOf(item.name);
    return at !== null || accent > 0 ? [{ tick, text: '[accent!]' }] : [];
  });
}
