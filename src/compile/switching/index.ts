// Decisions become switch messages, each at its place in the track.
import type { ArticulationMap } from '../../map/index.js';
import { type Clock, type Events, Insertions, type Part } from '../../midi/index.js';
import type { DecidedNotes } from '../decide/index.js';
import { switchesOf } from './channel.js';
import { copyToChannels } from './copies.js';
import { aspectWatcher, foreignWrites, strayWrites } from './foreign.js';
import type { Insert } from './insertion.js';
import { planSwitches } from './plan.js';
import { type SentNotes, sentNotes } from './sent.js';
import { splitterAt } from './split.js';
import { spotsOf } from './spots.js';
import { forEachStrike, strikeOf } from './strikes.js';
import type { SentEvents } from './weave.js';

export { aspectWatcher } from './foreign.js';
export { type SentNote, type SentNotes, sentPitch } from './sent.js';
export { weave } from './weave.js';

/** What a part's decisions come to. */
export interface PlacedSwitches extends SentEvents {
  readonly insertions: Insertions;
  /** For each decision how its note is sent. */
  readonly sent: SentNotes;
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
  decided: DecidedNotes,
  map: ArticulationMap,
): PlacedSwitches {
  const { notes: sent, rows, shared, strays, ...changes } = sentNotes(events, part, decided, map);
  const insertions = new Insertions();
  const insert: Insert = (before, tick, rank, message) => insertions.put(before, tick, rank, message);
  const ofChannels = byChannel(rows, sent);
  const others = [...ofChannels.keys()].filter((channel) => channel !== part.channel).sort((a, b) => a - b);
  copyToChannels(events, part.channel, others, changes.pitches, insert);
  const aspectsWritten = aspectWatcher(map);
  const switchTicks: (number | null)[] = new Array<number | null>(rows.length).fill(null);
  let switches = 0;
  for (const [channel, ofChannel] of ofChannels) {
    const plans = planSwitches(map, channel);
    const foreign = [
      ...foreignWrites(events, channel, part.channel, aspectsWritten),
      ...(channel === part.channel ? strayWrites(strays, map) : []),
    ].sort((a, b) => a.index - b.index);
    const split = splitterAt(rows, foreign);
    const channelSwitches = switchesOf(
      { spots: spotsOf(events), decided: rows, clock, map, plans, channel, foreign },
      insert,
    );
    forEachStrike(rows, ofChannel, (struck) => {
      for (const some of split(struck)) {
        const tick = channelSwitches.strike(strikeOf(rows, some));
        if (tick === null) continue;
        switches += 1;
        for (const row of some) switchTicks[row] = tick;
      }
    });
    channelSwitches.finish();
  }
  return { insertions, sent, shared, ...changes, switchTicks, switches };
}

/** The rows that go out on each channel, in order; channels as they are first used. */
function byChannel({ length }: DecidedNotes, { channel }: SentNotes): ReadonlyMap<number, readonly number[]> {
  const found = new Map<number, number[]>();
  for (let row = 0; row < length; row++) {
    const of = found.get(channel[row] ?? 0);
    if (of) of.push(row);
    else found.set(channel[row] ?? 0, [row]);
  }
  return found;
}
