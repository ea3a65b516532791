import { type ArticulationMap, channelFor } from '../../map/index.js';
import type { MeasuredNote } from '../../midi/index.js';
import type { Decision } from '../decide/index.js';

/** Notes of one onset that go out together on one channel, with one articulation. */
export interface Strike {
  readonly articulation: string;
  /** 0–15. */
  readonly channel: number;
  /** The first note-on: its tick and its index in the track. */
  readonly tick: number;
  readonly onIndex: number;
  /** The latest note-on. */
  readonly lastTick: number;
  /** The latest release, and its index in the track (−1: never released). */
  readonly endTick: number;
  readonly offIndex: number;
  /** The note that was struck first. */
  readonly note: MeasuredNote;
  /** Indices of its notes among the decisions. */
  readonly decisions: readonly number[];
}

/** Gathers decisions into strikes, for each channel that is used, in order. */
export function strikesByChannel(
  decisions: readonly Decision[],
  map: ArticulationMap,
  own: number,
): ReadonlyMap<number, readonly Strike[]> {
  const channelOf = new Map([...map.articulations.keys()].map((name) => [name, channelFor(map, name, own)]));
  const strikes = new Map<number, Strike[]>();
  const open: number[][] = [];
  const close = (channel: number) => {
    const strike = strikeOf(decisions, open[channel] ?? [], channel);
    const others = strikes.get(channel);
    if (strike && others) others.push(strike);
    else if (!others) strikes.set(channel, []);
    open[channel] = [];
  };
  decisions.forEach(({ articulation, note }, index) => {
    const channel = channelOf.get(articulation) ?? own;
    const last = decisions[open[channel]?.at(-1) ?? -1];
    if (last?.note.onset !== note.onset) close(channel);
    open[channel]?.push(index);
  });
  open.forEach((_, channel) => {
    close(channel);
  });
  return strikes;
}

/** The strike of some decisions, by index; undefined where there are none. */
export function strikeOf(
  decisions: readonly Decision[],
  indices: readonly number[],
  channel: number,
): Strike | undefined {
  const first = decisions[indices[0] ?? -1];
  if (!first) return undefined;
  let earliest = first.note;
  let latest = first.note;
  let lastTick = first.note.tick;
  for (let at = 1; at < indices.length; at++) {
    const note = decisions[indices[at] ?? -1]?.note;
    if (!note) continue;
    if (note.onIndex < earliest.onIndex) earliest = note;
    if (isLater(note, latest)) latest = note;
    lastTick = Math.max(lastTick, note.tick);
  }
  return {
    articulation: first.articulation,
    channel,
    tick: earliest.tick,
    onIndex: earliest.onIndex,
    lastTick,
    endTick: latest.endTick,
    offIndex: latest.offIndex,
    note: first.note,
    decisions: indices,
  };
}

/** Whether one release comes after another; a note that is never released outlasts all. */
export function isLater(
  a: { readonly endTick: number; readonly offIndex: number },
  b: { readonly endTick: number; readonly offIndex: number },
): boolean {
  if (a.offIndex < 0 || b.offIndex < 0) return b.offIndex >= 0;
  return a.offIndex > b.offIndex;
}
