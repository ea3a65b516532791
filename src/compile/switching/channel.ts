import type { ArticulationMap } from '../../map/index.js';
import { type Clock, type Events, isAtLeast, tickBefore } from '../../midi/index.js';
import type { ForeignWrite } from './foreign.js';
import { momentaryHolds } from './holds.js';
import { type Insert, ranks } from './insertion.js';
import type { AspectPlan, SwitchPlan } from './plan.js';
import { type Spot, spotForSwitch } from './spots.js';
import type { Strike } from './strikes.js';
import { latchingTaps } from './taps.js';

/** Everything that the switches of one output channel depend on. */
export interface ChannelTask {
  readonly events: Events;
  readonly clock: Clock;
  readonly map: ArticulationMap;
  readonly plans: ReadonlyMap<string, SwitchPlan>;
  /** 0–15. */
  readonly channel: number;
  readonly strikes: readonly Strike[];
  readonly foreign: readonly ForeignWrite[];
}

interface Sent {
  readonly content: string;
  readonly bar: number;
}

/**
 * Sends the switches of one channel: remembers what is in each aspect, and sends only what changes or is due again.
 *
 * @returns for each strike the tick of its switch, null where nothing had to be sent
 */
export function switchChannel(task: ChannelTask, insert: Insert): readonly (number | null)[] {
  const { events, clock, map, channel } = task;
  const { lead, tap, velocity } = map.switching;
  const taps = latchingTaps(events, clock, channel, velocity, tap, insert);
  const holds = momentaryHolds(events, channel, velocity, insert);
  const aspects = new Map<string, Sent>();
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
        aspects.delete(aspect);
        overwritten.set(aspect, write);
      }
  };
  const isDue = (aspect: AspectPlan, strike: Strike) => {
    const content = aspect.isHeld ? holds.content(aspect.aspect) : aspects.get(aspect.aspect)?.content;
    return content !== aspect.content || isRestated(task, strike, aspects.get(aspect.aspect)?.bar);
  };
  const send = (aspect: AspectPlan, spot: Spot, strike: Strike) => {
    if (aspect.key !== undefined) {
      if (aspect.isHeld) holds.press(aspect.aspect, aspect.content, aspect.key, spot, strike);
      else taps.strike(aspect.key, spot);
    }
    for (const message of aspect.messages) insert(spot.before, spot.tick, ranks.switch, message);
    aspects.set(aspect.aspect, { content: aspect.content, bar: clock.position(strike.tick)?.bar ?? 0 });
    overwritten.delete(aspect.aspect);
  };

  const ticks = task.strikes.map((strike) => {
    passForeign(strike);
    const from = earliest;
    earliest = strike.lastTick + 1;
    const plan = task.plans.get(strike.articulation) ?? [];
    if (!holds.isHolding() && !plan.some((aspect) => isDue(aspect, strike))) return null;
    const due = plan.filter((aspect) => isDue(aspect, strike));
    const stays = plan.filter((aspect) => aspect.isHeld && !due.includes(aspect));
    for (const { aspect } of stays) holds.keep(aspect, strike);
    const leaving = holds.aspects().filter((aspect) => !stays.some((other) => other.aspect === aspect));
    if (due.length === 0 && leaving.length === 0) return null;
    const barrier = latest(due.flatMap(({ aspect }) => overwritten.get(aspect) ?? []));
    const spot = spotFor(events, strike, Math.max(from, tickBefore(clock, strike.tick, lead)), barrier);
    const isForced = leaving.some((aspect) => holds.isNeededAfter(aspect, spot.tick));
    for (const aspect of leaving) holds.release(aspect, spot);
    for (const aspect of due) send(aspect, spot, strike);
    return due.length > 0 || isForced ? spot.tick : null;
  });
  taps.finish();
  for (const aspect of holds.aspects()) holds.release(aspect);
  return ticks;
}

/** Whether a switch that is in force is sent again at this strike. */
function isRestated({ map, clock }: ChannelTask, strike: Strike, sentBar: number | undefined): boolean {
  const { afterRest, everyBars } = map.switching.restate;
  if (afterRest && isAtLeast(strike.note.restBefore, afterRest, clock.ticksPerWhole)) return true;
  const bar = everyBars === undefined ? undefined : clock.position(strike.tick)?.bar;
  return everyBars !== undefined && bar !== undefined && sentBar !== undefined && bar - sentBar >= everyBars;
}

/** The place of a switch: at its tick, but never after the note, and behind what the input wrote to its aspects. */
function spotFor(events: Events, strike: Strike, wanted: number, barrier: ForeignWrite | undefined): Spot {
  const tick = Math.min(strike.tick, Math.max(wanted, barrier?.tick ?? 0));
  const spot = spotForSwitch(events, tick, strike.onIndex);
  return barrier && barrier.tick === tick ? { tick, before: Math.max(spot.before, barrier.index + 1) } : spot;
}

function latest(writes: readonly ForeignWrite[]): ForeignWrite | undefined {
  return writes.reduce<ForeignWrite | undefined>(
    (last, write) => (last && last.index > write.index ? last : write),
    undefined,
  );
}
