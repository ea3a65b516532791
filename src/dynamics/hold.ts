import type { Curve } from './curve.js';

/** A controller event: the value holds from its tick until the next one's. */
export interface ControllerPoint {
  readonly tick: number;
  /** 0–127. */
  readonly value: number;
}

/** The ticks that one event is to serve, as far as they are known. */
interface Reach {
  readonly from: number;
  readonly least: number;
  readonly most: number;
}

const highest = 127;

/**
 * The controller events that follow a curve as a synthesiser hears them: each value is held until the next event, and
 * at no tick is it more than 1 step from the curve. No smaller number of events can do that, because each one is held
 * for as long as any whole value is near enough. Where the curve rises, so do the values; where it falls, they fall; no
 * value follows itself.
 *
 * The bound is on the held value, not on lines between events: a line between two events may be true to the curve
 * while the value held in between is many steps away. The curve is monotone between knots, so the last tick that a value
 * can serve is found by bisection: no sampling, and about ten looks at the curve for each event.
 *
 * @param curve in controller steps, within 0–127; its knots are whole ticks
 * @throws RangeError where the curve leaves 0–127
 */
export function controllerPoints(curve: Pick<Curve, 'knots' | 'valueAt'>): readonly ControllerPoint[] {
  const { knots } = curve;
  const points: ControllerPoint[] = [];
  const first = knots[0];
  if (first === undefined) return points;
  let reach = startAt(curve, first);
  knots.forEach((knot, index) => {
    const last = (knots[index + 1] ?? knot + 1) - 1;
    let next = knot;
    while (next <= last) {
      const served = lastServed(curve, reach, next, last);
      if (served.tick >= next) reach = served.reach;
      if (served.tick === last) break;
      points.push({ tick: reach.from, value: servingValue(reach) });
      reach = startAt(curve, served.tick + 1);
      next = served.tick + 1;
    }
  });
  points.push({ tick: reach.from, value: servingValue(reach) });
  return points;
}

/** The last tick in a monotone stretch up to which one value serves; the tick before it where none does. */
function lastServed(
  curve: Pick<Curve, 'valueAt'>,
  reach: Reach,
  from: number,
  to: number,
): { readonly tick: number; readonly reach: Reach } {
  // in a monotone stretch the ends are the least and the most
  const begun = extended(reach, curve.valueAt(from));
  if (!isServed(begun)) return { tick: from - 1, reach };
  const whole = extended(begun, curve.valueAt(to));
  if (isServed(whole)) return { tick: to, reach: whole };
  let served = { tick: from, reach: begun };
  let beyond = to;
  while (beyond - served.tick > 1) {
    const middle = Math.floor((served.tick + beyond) / 2);
    const tried = extended(begun, curve.valueAt(middle));
    if (isServed(tried)) served = { tick: middle, reach: tried };
    else beyond = middle;
  }
  return served;
}

function startAt(curve: Pick<Curve, 'valueAt'>, tick: number): Reach {
  const value = curve.valueAt(tick);
  if (!(value >= 0 && value <= highest)) throw new RangeError(`the curve has ${value} at tick ${tick}`);
  return { from: tick, least: value, most: value };
}

function extended({ from, least, most }: Reach, value: number): Reach {
  return { from, least: Math.min(least, value), most: Math.max(most, value) };
}

function isServed({ least, most }: Reach): boolean {
  return Math.ceil(most - 1) <= Math.floor(least + 1);
}

/** The whole value nearest to the middle of what it has to serve, and within 1 of all of it. */
function servingValue({ least, most }: Reach): number {
  const middle = Math.round((least + most) / 2);
  const value = Math.max(Math.ceil(most - 1), Math.min(Math.floor(least + 1), middle));
  return Math.max(0, Math.min(highest, value));
}
