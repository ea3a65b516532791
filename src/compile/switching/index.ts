// Decisions become switch messages, each at its place in the track.
import type { ArticulationMap } from '../../map/index.js';
import { type Clock, type Events, Insertions, lastTick, type Part, ticksUpTo } from '../../midi/index.js';
import type { DecidedNotes } from '../decide/index.js';
import { switchesOf } from './channel.js';
import { copyToChannels } from './copies.js';
import { aspectWatcher, foreignWrites, strayWrites } from './foreign.js';
import type { Insert } from './insertion.js';
import { type SentNotes, sentNotes } from './sent.js';
import { spotsOf } from './spots.js';
import { strikeAt, strikesOf } from './strikes.js';
import type { SentEvents } from './weave.js';

export { aspectWatcher } from './foreign.js';
export { type SentNote, type SentNotes, sentPitch } from './sent.js';
export { weave } from './weave.js';

/** Instead of a tick where nothing had to be sent. */
const unsent = -1;

/** What a part's decisions come to. */
export interface PlacedSwitches extends SentEvents {
  readonly insertions: Insertions;
  /** For each decision how its note is sent. */
  readonly sent: SentNotes;
  /** Notes that share a key of the library with others while these sound: indices of decisions. */
  readonly shared: readonly number[];
  /** For each decision the tick of its switch; null where nothing had to be sent. */
  readonly switchTicks: readonly (number | null)[];
  /** The same for one decision. */
  switchTickOf(row: number): number | null;
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
  const ofChannels = byChannel(sent.channel);
  const others = [...ofChannels.keys()].filter((channel) => channel !== part.channel).sort((a, b) => a - b);
  copyToChannels(events, part.channel, others, changes.pitches, insert);
  const aspectsWritten = aspectWatcher(map);
  const ticks = ticksUpTo(lastTick(events), rows.length).fill(unsent);
  let switches = 0;
  for (const [channel, ofChannel] of ofChannels) {
    const foreign = [
      ...foreignWrites(events, channel, part.channel, aspectsWritten),
      ...(channel === part.channel ? strayWrites(strays, map) : []),
    ].sort((a, b) => a.index - b.index);
    const spots = spotsOf(events);
    const channelSwitches = switchesOf({ spots, decided: rows, clock, map, channel, foreign }, insert);
    const strikes = strikesOf(rows, ofChannel, foreign);
    for (let strike = 0; strike < strikes.length; strike++) {
      const tick = channelSwitches.strike(strikeAt(rows, strikes, strike));
      if (tick === null) continue;
      switches += 1;
      const end = strikes.first[strike + 1] ?? 0;
      for (let at = strikes.first[strike] ?? 0; at < end; at++) ticks[ofChannel[at] ?? 0] = tick;
    }
    channelSwitches.finish();
  }
  const switchTickOf = (row: number) => ((ticks[row] ?? unsent) === unsent ? null : (ticks[row] ?? null));
  let switchTicks: readonly (number | null)[] | undefined;
  return {
    insertions,
    sent,
    shared,
    ...changes,
    get switchTicks() {
      switchTicks ??= Array.from(ticks, (_, row) => switchTickOf(row));
      return switchTicks;
    },
    switchTickOf,
    switches,
  };
}

/** The rows that go out on each channel, in order; channels as they are first used. */
function byChannel(channels: Uint8Array): ReadonlyMap<number, Uint32Array> {
  const counts = new Map<number, number>();
  for (const channel of channels) counts.set(channel, (counts.get(channel) ?? 0) + 1);
  const found = new Map<number, Uint32Array>();
  for (const [channel, count] of counts) {
    const rows = new Uint32Array(count);
    let length = 0;
    for (let row = 0; row < channels.length; row++) if (channels[row] === channel) rows[length++] = row;
    found.set(channel, rows);
  }
  return found;
}
