import { channelOf, type Events, firstData, isNoteOn, kindOf, secondData, tickOf } from '../../midi/index.js';
import { isNote } from '../pairs.js';
import { type Complain, type Spot, ticksText, type Violation, type ViolationKind } from '../violations.js';
import { describeEvent } from './describe.js';
import { Identities, type NoteChannel } from './identity.js';
import { saidChannel, sortsOf } from './sorts.js';

/** What was lost and what came to be there instead, as indices. */
export interface Damage {
  readonly input: Events;
  readonly output: Events;
  readonly missing: readonly number[];
  readonly alien: readonly number[];
  readonly noteChannel: NoteChannel;
  readonly middleC: 3 | 4 | 5;
  /** Whether notes of a channel (0–15) are played by a library that is proved. */
  readonly isPlayed: (channel: number) => boolean;
  readonly complain: Complain;
}

/**
 * Says what happened to the music: what is missing and found elsewhere has moved; what is missing, with another of its
 * sort on its tick, has changed; the rest is missing, or was added.
 */
export function differences(damage: Damage): readonly Violation[] {
  const { input, output, noteChannel, middleC, complain, isPlayed } = damage;
  if (damage.missing.length === 0 && damage.alien.length === 0) return [];
  const violations: Violation[] = [];
  const say = (kind: ViolationKind, events: Events, event: number, what: string) => {
    const message = `${describeEvent(events, event, middleC)} ${what}`;
    violations.push(complain(kind, spotOf(events, event), message));
  };
  const moved = (gone: number, found: number) => {
    const by = tickOf(output, found) - tickOf(input, gone);
    const how = by === 0 ? 'stands in another order on its tick' : `was moved by ${ticksText(by)}`;
    say('moved-event', input, gone, how);
  };
  const changed = (gone: number, found: number) =>
    say('changed-event', input, gone, `is now ${changedTo(damage, gone, found)}`);

  const identities = new Identities(noteChannel);
  const { sortOf, kindOf } = sortsOf(noteChannel);
  const all: Loose = { lost: damage.missing, found: damage.alien };
  const stayed = matched(damage, all, (events, event) => identities.of(events, event), false, moved);
  const closer = matched(damage, stayed, sortOf, true, changed);
  const rest = matched(damage, closer, kindOf, true, changed);

  for (const gone of rest.lost) say('missing-event', input, gone, 'is missing');
  for (const added of rest.found)
    if (isNoteOn(output, added) && isPlayed(channelOf(output, added)))
      say('heard-switch', output, added, 'was added, is no switch, and is heard');
    else say('added-event', output, added, 'was added, and is no switch');
  return violations;
}

/** What is lost of the input, and what of the output is found instead, as indices, in order. */
interface Loose {
  readonly lost: readonly number[];
  readonly found: readonly number[];
}

/** What stands for an event where it is looked for: equal for those that match. */
type KeyOf = (events: Events, event: number) => number | string;

/**
 * Pairs what is equal in a way, in order; gives back the rest.
 *
 * @param isOnTick whether only events of one tick match
 */
function matched(
  { input, output }: Damage,
  { lost, found }: Loose,
  keyOf: KeyOf,
  isOnTick: boolean,
  pair: (lost: number, found: number) => void,
): Loose {
  if (lost.length === 0 || found.length === 0) return { lost, found };
  const queues = new Map<number | string, { readonly of: number[]; next: number }>();
  for (const event of found) {
    const key = keyOf(output, event);
    const queue = queues.get(key);
    if (queue) queue.of.push(event);
    else queues.set(key, { of: [event], next: 0 });
  }
  const taken = new Set<number>();
  const rest = lost.filter((event) => {
    const queue = queues.get(keyOf(input, event));
    if (!queue) return true;
    const tick = tickOf(input, event);
    // Both come in order of time: what lies before this tick matches nothing that is still to come.
    const isBefore = (other: number | undefined) => other !== undefined && tickOf(output, other) < tick;
    while (isOnTick && isBefore(queue.of[queue.next])) queue.next += 1;
    const match = queue.of[queue.next];
    if (match === undefined || (isOnTick && tickOf(output, match) !== tick)) return true;
    queue.next += 1;
    taken.add(match);
    pair(event, match);
    return false;
  });
  return { lost: rest, found: found.filter((event) => !taken.has(event)) };
}

function changedTo({ input, output, middleC }: Damage, from: number, to: number): string {
  if (isNote(input, from) && isNote(output, to) && firstData(input, from) === firstData(output, to)) {
    const [before, after] = [secondData(input, from), secondData(output, to)];
    return before === after ? 'written in another way' : `of velocity ${after} instead of ${before}`;
  }
  const before = describeEvent(input, from, middleC);
  const after = describeEvent(output, to, middleC);
  return before === after ? 'another' : after;
}

function spotOf(events: Events, event: number): Spot {
  return {
    tick: tickOf(events, event),
    channel: saidChannel(events, event),
    pitch: kindOf(events, event) < 0xb0 ? firstData(events, event) : undefined,
  };
}
