import { type Events, tickOf } from '../../midi/index.js';
import { Identities, isSame, type NoteChannel } from './identity.js';

/** Which events of a compiled track are those of the input. */
export interface Alignment {
  /** For each event of the output the index of the input's event; −1 where it was put in. */
  readonly inputOf: Int32Array;
  /** Indices of the input's events that the output does not have on their tick, in their order. */
  readonly missing: readonly number[];
}

/**
 * Walks through two tracks at once and takes the inserted events out. An event of the input is found where the output
 * has the same on the same tick, behind the one found before it. Ticks are compared one by one, so that what is lost on
 * one does not spoil the next.
 */
export function align(input: Events, output: Events, noteChannel: NoteChannel): Alignment {
  const inputOf = new Int32Array(output.length).fill(-1);
  const missing: number[] = [];
  const identities = new Identities(noteChannel);
  let from = 0;
  let outFrom = 0;
  while (from < input.length) {
    const tick = tickOf(input, from);
    while (outFrom < output.length && tickOf(output, outFrom) < tick) outFrom += 1;
    const to = endOfTick(input, from, tick);
    const outTo = endOfTick(output, outFrom, tick);
    while (from < to) {
      let found = outFrom;
      while (found < outTo && !isSame(input, from, output, found, noteChannel)) found += 1;
      if (found === outTo) break;
      inputOf[found] = from;
      from += 1;
      outFrom = found + 1;
    }
    if (from < to) alignDamaged({ input, from, to, output, outFrom, outTo, identities }, inputOf, missing);
    from = to;
    outFrom = outTo;
  }
  return { inputOf, missing };
}

interface OneTick {
  readonly input: Events;
  readonly from: number;
  readonly to: number;
  readonly output: Events;
  readonly outFrom: number;
  readonly outTo: number;
  readonly identities: Identities;
}

/** From an event on that was not found: the same, with a list of where each event is, so that it costs no more. */
function alignDamaged(at: OneTick, inputOf: Int32Array, missing: number[]): void {
  const { input, output, identities } = at;
  const places = new Map<number, { readonly at: number[]; next: number }>();
  for (let event = at.outFrom; event < at.outTo; event++) {
    const identity = identities.of(output, event);
    const known = places.get(identity);
    if (known) known.at.push(event);
    else places.set(identity, { at: [event], next: 0 });
  }
  let next = at.outFrom;
  for (let event = at.from; event < at.to; event++) {
    const of = places.get(identities.of(input, event));
    while (of && (of.at[of.next] ?? next) < next) of.next += 1;
    const found = of?.at[of.next];
    if (found === undefined) missing.push(event);
    else {
      inputOf[found] = event;
      next = found + 1;
    }
  }
}

/** The first event behind those of a tick that stand from an index on. */
function endOfTick(events: Events, from: number, tick: number): number {
  let to = from;
  while (to < events.length && tickOf(events, to) === tick) to += 1;
  return to;
}
