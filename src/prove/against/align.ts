import type { Track } from '../../midi/index.js';
import { identityOf, isSame, type NoteChannel } from './identity.js';

/** Which events of a compiled track are those of the input. */
export interface Alignment {
  /** For each event of the output the index of the input's event; −1 where it was put in. */
  readonly inputOf: readonly number[];
  /** Indices of the input's events that the output does not have on their tick, in their order. */
  readonly missing: readonly number[];
}

/**
 * Walks through two tracks at once and takes the inserted events out. An event of the input is found where the output
 * has the same on the same tick, behind the one found before it. Ticks are compared one by one, so that what is lost on
 * one does not spoil the next.
 */
export function align(input: Track, output: Track, noteChannel: NoteChannel): Alignment {
  const inputOf = output.events.map(() => -1);
  const missing: number[] = [];
  let from = 0;
  let outFrom = 0;
  while (from < input.events.length) {
    const tick = input.ticks[from] ?? 0;
    const to = endOfTick(input, from);
    while (outFrom < output.events.length && (output.ticks[outFrom] ?? 0) < tick) outFrom += 1;
    const isHere = output.ticks[outFrom] === tick;
    const outTo = isHere ? endOfTick(output, outFrom) : outFrom;
    alignTick({ input, from, to, output, outFrom, outTo, noteChannel }, inputOf, missing);
    from = to;
    outFrom = outTo;
  }
  return { inputOf, missing };
}

interface OneTick {
  readonly input: Track;
  readonly from: number;
  readonly to: number;
  readonly output: Track;
  readonly outFrom: number;
  readonly outTo: number;
  readonly noteChannel: NoteChannel;
}

function alignTick(at: OneTick, inputOf: number[], missing: number[]): void {
  const { input, output, noteChannel } = at;
  let next = at.outFrom;
  for (let index = at.from; index < at.to; index++) {
    const event = input.events[index];
    if (!event) continue;
    let found = next;
    for (let other = output.events[found]; found < at.outTo; other = output.events[++found])
      if (other && isSame(event, other, noteChannel)) break;
    if (found === at.outTo) {
      alignDamaged({ ...at, from: index, outFrom: next }, inputOf, missing);
      return;
    }
    inputOf[found] = index;
    next = found + 1;
  }
}

/** From an event on that was not found: the same, with a list of where each event is, so that it costs no more. */
function alignDamaged(at: OneTick, inputOf: number[], missing: number[]): void {
  const { input, output, noteChannel } = at;
  const places = new Map<string, { readonly at: number[]; next: number }>();
  for (let index = at.outFrom; index < at.outTo; index++) {
    const event = output.events[index];
    if (!event) continue;
    const identity = identityOf(event, noteChannel);
    const known = places.get(identity);
    if (known) known.at.push(index);
    else places.set(identity, { at: [index], next: 0 });
  }
  let next = at.outFrom;
  for (let index = at.from; index < at.to; index++) {
    const event = input.events[index];
    const of = event && places.get(identityOf(event, noteChannel));
    while (of && (of.at[of.next] ?? next) < next) of.next += 1;
    const found = of?.at[of.next];
    if (found === undefined) {
      missing.push(index);
      continue;
    }
    inputOf[found] = index;
    next = found + 1;
  }
}

function endOfTick({ ticks }: Track, from: number): number {
  let to = from + 1;
  while (to < ticks.length && ticks[to] === ticks[from]) to += 1;
  return to;
}
