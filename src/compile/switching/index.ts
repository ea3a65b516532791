// Decisions become switch messages, each at its place in the track.
import type { ArticulationMap } from '../../map/index.js';
import type { Clock, Part, Track } from '../../midi/index.js';
import type { Decision } from '../decide/index.js';
import { switchChannel } from './channel.js';
import { copyToChannels } from './copies.js';
import { aspectWatcher, foreignWrites } from './foreign.js';
import type { Insert, Insertion } from './insertion.js';
import { planSwitches } from './plan.js';
import { splitAtForeign } from './split.js';
import { strikesByChannel } from './strikes.js';

export { aspectWatcher } from './foreign.js';
export { weave } from './weave.js';

/** What a part's decisions come to. */
export interface PlacedSwitches {
  readonly insertions: readonly Insertion[];
  /** The new channel (0–15) of note-ons and note-offs, by index in the track. */
  readonly channels: ReadonlyMap<number, number>;
  /** For each decision the tick of its switch; null where nothing had to be sent. */
  readonly switchTicks: readonly (number | null)[];
  /** How many times switches were sent. */
  readonly switches: number;
}

/** Turns the decisions of a part into events to be put into its track. */
export function placeSwitches(
  track: Track,
  clock: Clock,
  part: Part,
  decisions: readonly Decision[],
  map: ArticulationMap,
): PlacedSwitches {
  const insertions: Insertion[] = [];
  const insert: Insert = (before, tick, rank, event) => void insertions.push({ before, tick, rank, event });
  const strikes = strikesByChannel(decisions, map, part.channel);
  const others = [...strikes.keys()].filter((channel) => channel !== part.channel).sort((a, b) => a - b);
  copyToChannels(track, part.channel, others, insert);
  const aspectsWritten = aspectWatcher(map);
  const channels = new Map<number, number>();
  const switchTicks: (number | null)[] = decisions.map(() => null);
  let switches = 0;
  for (const [channel, ofChannel] of strikes) {
    const plans = planSwitches(map, channel);
    const foreign = foreignWrites(track, channel, part.channel, aspectsWritten);
    const parted = splitAtForeign(ofChannel, decisions, foreign);
    const ticks = switchChannel({ track, clock, map, plans, channel, strikes: parted, foreign }, insert);
    parted.forEach((strike, index) => {
      const tick = ticks[index] ?? null;
      if (tick !== null) switches += 1;
      for (const decision of strike.decisions) {
        switchTicks[decision] = tick;
        if (channel !== part.channel) reroute(channels, decisions[decision], channel);
      }
    });
  }
  return { insertions, channels, switchTicks, switches };
}

function reroute(channels: Map<number, number>, decision: Decision | undefined, channel: number): void {
  if (!decision) return;
  channels.set(decision.note.onIndex, channel);
  if (decision.note.offIndex >= 0) channels.set(decision.note.offIndex, channel);
}
