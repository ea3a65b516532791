import type { Decision } from '../model/decision.js';
import type { Span } from '../model/line.js';
import type { ArticulationMap } from '../model/map.js';
import { channelFor } from '../model/slot.js';

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
  readonly restBefore: Span;
  /** Indices of its notes among the decisions. */
  readonly decisions: readonly number[];
}

/** Gathers decisions into strikes, for each channel that is used, in order. */
export function strikesByChannel(
  decisions: readonly Decision[],
  map: ArticulationMap,
  own: number,
): ReadonlyMap<number, readonly Strike[]> {
  const channels = new Map<number, Strike[]>();
  const channelOf = new Map([...map.articulations.keys()].map((name) => [name, channelFor(map, name, own)]));
  const onsetOf = new Map<number, number>();
  decisions.forEach((decision, index) => {
    const channel = channelOf.get(decision.articulation) ?? own;
    const strikes = channels.get(channel) ?? [];
    if (strikes.length === 0) channels.set(channel, strikes);
    const last = strikes.at(-1);
    const isSame = last && onsetOf.get(channel) === decision.note.onset;
    if (isSame) strikes[strikes.length - 1] = gather(last, decision, index);
    else strikes.push(gather(undefined, decision, index, channel));
    onsetOf.set(channel, decision.note.onset);
  });
  return channels;
}

/** A strike with one more note, or with that note alone where there is none yet. */
export function gather(strike: Strike | undefined, decision: Decision, index: number, channel = 0): Strike {
  return strike ? join(strike, single(decision, index, strike.channel)) : single(decision, index, channel);
}

function single({ note, articulation }: Decision, index: number, channel: number): Strike {
  const { tick, onIndex, endTick, offIndex, restBefore } = note;
  return {
    articulation,
    channel,
    tick,
    onIndex,
    lastTick: tick,
    endTick,
    offIndex,
    restBefore,
    decisions: [index],
  };
}

function join(a: Strike, b: Strike): Strike {
  const latest = isLater(b, a) ? b : a;
  const earliest = b.onIndex < a.onIndex ? b : a;
  return {
    ...a,
    tick: earliest.tick,
    onIndex: earliest.onIndex,
    lastTick: Math.max(a.lastTick, b.lastTick),
    endTick: latest.endTick,
    offIndex: latest.offIndex,
    decisions: [...a.decisions, ...b.decisions],
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
