import type { ArticulationMap } from '../../map/index.js';
import { type Clock, isAtLeast, tickBefore } from '../../midi/index.js';
import type { DecidedNotes } from '../decide/index.js';
import { barsOf } from './bars.js';
import type { ForeignWrite } from './foreign.js';
import { momentaryHolds } from './holds.js';
import { type Insert, ranks } from './insertion.js';
import { type AspectPlan, planSwitches, type SwitchPlan } from './plan.js';
import type { Spot, Spots } from './spots.js';
import type { Strike } from './strikes.js';
import { latchingTaps } from './taps.js';

/** Everything that the switches of one output channel depend on. */
export interface ChannelTask {
  readonly spots: Spots;
  /** What the strikes are made of. */
  readonly decided: DecidedNotes;
  readonly clock: Clock;
  readonly map: ArticulationMap;
  /** 0–15. */
  readonly channel: number;
  readonly foreign: readonly ForeignWrite[];
}

const nothing: readonly string[] = [];
const noneDue: SwitchPlan = [];

/** In an aspect whose switch was not sent, or is in force no more. */
const unsent = -1;

/** The switches of one channel. */
export interface ChannelSwitches {
  /** Sends what a strike needs, one strike after another; the tick of its switch, null where nothing had to be sent. */
  strike(strike: Strike): number | null;
  /** Ends what is still down. */
  finish(): void;
}

/** Remembers what is in each aspect of a channel, and sends only what changes or is due again. */
export function switchesOf(task: ChannelTask, insert: Insert): ChannelSwitches {
  const { spots, clock, map, channel } = task;
  const { lead, tap, velocity, restate } = map.switching;
  const plans = planSwitches(map, task.decided.names, channel);
  const taps = latchingTaps(spots, clock, channel, velocity, tap, insert);
  const holds = momentaryHolds(spots, channel, velocity, insert);
  /** What was sent to each aspect, and, where the map asks for it to be sent again after some bars, in which bar. */
  const contents = new Int32Array(plans.aspects.size).fill(unsent);
  const bars: (number | undefined)[] = new Array<undefined>(plans.aspects.size).fill(undefined);
  const overwritten = new Map<string, ForeignWrite>();
  let nextForeign = 0;
  let earliest = 0;

  const passForeign = (strike: Strike) => {
    for (
      let write = task.foreign[nextForeign];
      write && write.index < strike.onIndex;
      write = task.foreign[++nextForeign]
    )
      for (const aspect of write.aspects) {
        // A key that was held is up by now; its own release follows, and it is pressed again where it is needed.
        holds.release(aspect, { tick: write.tick, before: write.index + 1 });
        const number = plans.aspects.get(aspect);
        if (number !== undefined) contents[number] = unsent;
        overwritten.set(aspect, write);
      }
  };
  const barOf = restate.everyBars === undefined ? () => undefined : barsOf(clock);
  const isDue = (plan: AspectPlan, strike: Strike, bar: number | undefined) => {
    const content = plan.isHeld ? holds.content(plan.aspect) : contents[plan.number];
    if (content !== plan.content) return true;
    return isRestated(task, strike, contents[plan.number] === unsent ? undefined : bars[plan.number], bar);
  };
  const send = (plan: AspectPlan, spot: Spot, strike: Strike, bar: number | undefined) => {
    if (plan.key !== undefined) {
      if (plan.isHeld) holds.press(plan.aspect, plan.content, plan.key, spot, strike);
      else taps.strike(plan.key, spot);
    }
    for (const message of plan.messages) insert(spot.before, spot.tick, ranks.switch, message);
    contents[plan.number] = plan.content;
    bars[plan.number] = bar;
    if (overwritten.size > 0) overwritten.delete(plan.aspect);
  };
  /** Those of a plan that are not in force. Most plans have one aspect: all of them, or none. */
  const dueOf = (plan: SwitchPlan, strike: Strike, bar: number | undefined): SwitchPlan => {
    let count = 0;
    for (const aspect of plan) if (isDue(aspect, strike, bar)) count += 1;
    if (count === plan.length) return plan;
    return count === 0 ? noneDue : plan.filter((aspect) => isDue(aspect, strike, bar));
  };

  /** Keys that are held and needed again stay down; returns the aspects of the others. */
  const keepHolding = (plan: SwitchPlan, due: SwitchPlan, strike: Strike) => {
    const stays = plan.filter((aspect) => aspect.isHeld && !due.includes(aspect));
    for (const { aspect } of stays) holds.keep(aspect, strike);
    return holds.aspects().filter((aspect) => !stays.some((other) => other.aspect === aspect));
  };

  return {
    strike(strike) {
      passForeign(strike);
      const from = earliest;
      earliest = strike.lastTick + 1;
      const plan = plans.of[strike.articulation] ?? noneDue;
      const bar = barOf(strike.tick);
      const due = dueOf(plan, strike, bar);
      if (due.length === 0 && !holds.isHolding()) return null;
      const leaving = holds.isHolding() ? keepHolding(plan, due, strike) : nothing;
      if (due.length === 0 && leaving.length === 0) return null;
      const barrier =
        overwritten.size === 0
          ? undefined
          : latest(due.flatMap(({ aspect }) => overwritten.get(aspect) ?? []));
      const spot = spotFor(spots, strike, Math.max(from, tickBefore(clock, strike.tick, lead)), barrier);
      const isForced = leaving.some((aspect) => holds.isNeededAfter(aspect, spot.tick));
      for (const aspect of leaving) holds.release(aspect, spot);
      for (const aspect of due) send(aspect, spot, strike, bar);
      return due.length > 0 || isForced ? spot.tick : null;
    },
    finish() {
      taps.finish();
      for (const aspect of holds.aspects()) holds.release(aspect);
    },
  };
}

/**
 * Whether a switch that is in force is sent again at this strike.
 *
 * @param sentBar the bar in which it was sent last
 */
function isRestated(
  { map, clock, decided }: ChannelTask,
  { row }: Strike,
  sentBar: number | undefined,
  bar: number | undefined,
): boolean {
  const { afterRest, everyBars } = map.switching.restate;
  if (afterRest && isAtLeast(decided.noteOf(row).restBefore, afterRest, clock.ticksPerWhole)) return true;
  return everyBars !== undefined && bar !== undefined && sentBar !== undefined && bar - sentBar >= everyBars;
}

/** The place of a switch: at its tick, but never after the note, and behind what the input wrote to its aspects. */
function spotFor(spots: Spots, strike: Strike, wanted: number, barrier: ForeignWrite | undefined): Spot {
  const tick = Math.min(strike.tick, Math.max(wanted, barrier?.tick ?? 0));
  const spot = spots.forSwitch(tick, strike.onIndex);
  return barrier && barrier.tick === tick ? { tick, before: Math.max(spot.before, barrier.index + 1) } : spot;
}

function latest(writes: readonly ForeignWrite[]): ForeignWrite | undefined {
  return writes.reduce<ForeignWrite | undefined>(
    (last, write) => (last && last.index > write.index ? last : write),
    undefined,
  );
}
