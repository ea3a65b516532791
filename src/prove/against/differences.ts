import type { MidiEvent, Track } from '../../midi/index.js';
import { isNote, isStrike } from '../pairs.js';
import { type Complain, type Spot, ticksText, type Violation, type ViolationKind } from '../violations.js';
import { describeEvent } from './describe.js';
import { identityOf, type NoteChannel } from './identity.js';

/** What was lost and what came to be there instead, as indices. */
export interface Damage {
  readonly input: Track;
  readonly output: Track;
  readonly missing: readonly number[];
  readonly alien: readonly number[];
  readonly noteChannel: NoteChannel;
  readonly middleC: 3 | 4 | 5;
  /** Whether notes of a channel (0–15) are played by a library that is proved. */
  readonly isPlayed: (channel: number) => boolean;
  readonly complain: Complain;
}

interface Loose {
  readonly event: MidiEvent;
  readonly tick: number;
}

/**
 * Says what happened to the music: what is missing and found elsewhere has moved; what is missing, with another of its
 * sort on its tick, has changed; the rest is missing, or was added.
 */
export function differences(damage: Damage): readonly Violation[] {
  const { noteChannel, middleC, complain, isPlayed } = damage;
  const lost = loose(damage.input, damage.missing);
  const found = loose(damage.output, damage.alien);
  const violations: Violation[] = [];
  const say = (kind: ViolationKind, { event, tick }: Loose, what: string) =>
    violations.push(complain(kind, spotOf(event, tick), `${describeEvent(event, middleC)} ${what}`));

  const identity = ({ event }: Loose) => identityOf(event, noteChannel);
  const stayed = matched(lost, found, identity, (a, b) =>
    say(
      'moved-event',
      a,
      b.tick === a.tick
        ? 'stands in another order on its tick'
        : `was moved by ${ticksText(b.tick - a.tick)}`,
    ),
  );
  const sort = ({ event, tick }: Loose) => `${tick} ${sortOf(event, noteChannel)}`;
  const kind = ({ event, tick }: Loose) => `${tick} ${event.type} ${channelOf(event, noteChannel)}`;
  const changed = (a: Loose, b: Loose) =>
    say('changed-event', a, `is now ${changedTo(a.event, b.event, middleC)}`);
  const closer = matched(stayed.lost, stayed.found, sort, changed);
  const rest = matched(closer.lost, closer.found, kind, changed);

  for (const gone of rest.lost) say('missing-event', gone, 'is missing');
  for (const added of rest.found) {
    const { event } = added;
    if (isStrike(event) && isPlayed(event.channel))
      say('heard-switch', added, 'was added, is no switch, and is heard');
    else say('added-event', added, 'was added, and is no switch');
  }
  return violations;
}

function loose({ events, ticks }: Track, indices: readonly number[]): readonly Loose[] {
  return indices.flatMap((index) => {
    const event = events[index];
    return event ? [{ event, tick: ticks[index] ?? 0 }] : [];
  });
}

/** Pairs what is equal in a way, in order; gives back the rest. */
function matched(
  lost: readonly Loose[],
  found: readonly Loose[],
  keyOf: (loose: Loose) => string,
  pair: (lost: Loose, found: Loose) => void,
): { readonly lost: readonly Loose[]; readonly found: readonly Loose[] } {
  if (lost.length === 0 || found.length === 0) return { lost, found };
  const queues = new Map<string, { readonly of: Loose[]; next: number }>();
  for (const loose of found) {
    const queue = queues.get(keyOf(loose));
    if (queue) queue.of.push(loose);
    else queues.set(keyOf(loose), { of: [loose], next: 0 });
  }
  const taken = new Set<Loose>();
  const rest = lost.filter((loose) => {
    const queue = queues.get(keyOf(loose));
    const match = queue?.of[queue.next];
    if (!queue || !match) return true;
    queue.next += 1;
    taken.add(match);
    pair(loose, match);
    return false;
  });
  return { lost: rest, found: found.filter((loose) => !taken.has(loose)) };
}

/** Events of one sort say different things about the same: a note's velocity, a controller's value. */
function sortOf(event: MidiEvent, noteChannel: NoteChannel): string {
  const channel = channelOf(event, noteChannel);
  if ('noteNumber' in event) return `${event.type} ${channel} ${event.noteNumber}`;
  return event.type === 'controller'
    ? `controller ${channel} ${event.controllerType}`
    : `${event.type} ${channel}`;
}

function channelOf(event: MidiEvent, noteChannel: NoteChannel): string {
  if (!('channel' in event)) return '';
  return `${isNote(event) ? noteChannel(event.channel) : event.channel}`;
}

function changedTo(from: MidiEvent, to: MidiEvent, middleC: 3 | 4 | 5): string {
  if ('velocity' in from && 'velocity' in to && from.noteNumber === to.noteNumber)
    return from.velocity === to.velocity
      ? 'written in another way'
      : `of velocity ${to.velocity} instead of ${from.velocity}`;
  const [before, after] = [describeEvent(from, middleC), describeEvent(to, middleC)];
  return before === after ? 'another' : after;
}

function spotOf(event: MidiEvent, tick: number): Spot {
  return {
    tick,
    channel: 'channel' in event ? event.channel : undefined,
    pitch: 'noteNumber' in event ? event.noteNumber : undefined,
  };
}
