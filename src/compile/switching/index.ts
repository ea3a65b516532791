// Decisions become switch messages, each at its place in the track.
import type { ArticulationMap } from '../../map/index.js';
import { type Clock, type Events, Insertions, type Part } from '../../midi/index.js';
import type { Decision } from '../decide/index.js';
import { switchChannel } from './channel.js';
import { copyToChannels } from './copies.js';
import { aspectWatcher, foreignWrites, strayWrites } from './foreign.js';
import type { Insert } from './insertion.js';
import { planSwitches } from './plan.js';
import { type SentNote, sentNotes } from './sent.js';
import { splitAtForeign } from './split.js';
import { strikesByChannel } from './strikes.js';
import type { SentEvents } from './weave.js';

export { aspectWatcher } from './foreign.js';
export { type SentNote, sentPitch } from './sent.js';
export { weave } from './weave.js';

/** What a part's decisions come to. */
export interface PlacedSwitches extends SentEvents {
  readonly insertions: Insertions;
  /** For each decision how its note is sent. */
  readonly sent: readonly SentNote[];
  /** Notes that share a key of the library with others while these sound: indices of decisions. */
  readonly shared: readonly number[];
  /** For each decision the tick of its switch; null where nothing had to be sent. */
  readonly switchTicks: readonly (number | null)[];
  /** How many times switches were sent. */
  readonly switches: number;
}

/** Turns the decisions of a part into events to be put into its track. */
export function placeSwitches(
  events: Events,
  clock: Clock,
  part: Part,
  decided: readonly Decision[],
  map: ArticulationMap,
): PlacedSwitches {
  const { notes: sent, decisions, shared, strays, ...changes } = sentNotes(events, part, decided, map);
  const insertions = new Insertions();
  const insert: Insert = (before, tick, rank, message) => insertions.put(before, tick, rank, message);
  const strikes = strikesByChannel(decisions, map, part.channel);
  const others = [...strikes.keys()].filter((channel) => channel !== part.channel).sort((a, b) => a - b);
  copyToChannels(events, part.channel, others, changes.pitches, insert);
  const aspectsWritten = aspectWatcher(map);
  const switchTicks: (number | null)[] = decisions.map(() => null);
  let switches = 0;
  for (const [channel, ofChannel] of strikes) {
    const plans = planSwitches(map, channel);
    const foreign = [
      ...foreignWrites(events, channel, part.channel, aspectsWritten),
      ...(channel === part.channel ? strayWrites(strays, map) : []),
    ].sort((a, b) => a.index - b.index);
    const parted = splitAtForeign(ofChannel, decisions, foreign);
    const ticks = switchChannel({ events, clock, map, plans, channel, strikes: parted, foreign }, insert);
    parted.forEach((strike, index) => {
      const tick = ticks[index] ?? null;
      if (tick !== null) switches += 1;
      for (const decision of strike.decisions) switchTicks[decision] = tick;
    });
  }
  return { insertions, sent, shared, ...changes, switchTicks, switches };
}
