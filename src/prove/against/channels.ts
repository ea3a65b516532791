import type { Track } from '../../midi/index.js';
import { isNote, isStrike } from '../pairs.js';
import type { Stage } from '../part.js';
import type { Complain, Violation } from '../violations.js';
import type { Alignment } from './align.js';
import { describeEvent } from './describe.js';
import type { NoteChannel } from './identity.js';

/** One number for all channels that belong together because a part's notes may stand on any of them. */
export function noteChannels(stages: readonly Stage[]): NoteChannel {
  let groups = Array.from({ length: 16 }, (_, channel) => channel);
  for (const { channels } of stages) {
    const joined = new Set([...channels].map((channel) => groups[channel] ?? channel));
    const lowest = Math.min(...joined);
    groups = groups.map((group) => (joined.has(group) ? lowest : group));
  }
  return (channel) => groups[channel] ?? channel;
}

/**
 * changed-event: a note of the music that stands on a channel which its part does not use, or a release on another
 * channel than its note.
 */
export function channelChanges(
  input: Track,
  output: Track,
  { inputOf }: Alignment,
  stages: readonly Stage[],
  complain: Complain,
): readonly Violation[] {
  // Where no part has a second channel, notes were only found on their own.
  if (stages.every(({ channels }) => channels.size === 1)) return [];
  const stageOn = new Map(stages.map((stage) => [stage.part.channel, stage]));
  const outputOf = new Map(inputOf.map((inputIndex, index) => [inputIndex, index]));
  const expected = followNotes();
  return input.events.flatMap((before, inputIndex): readonly Violation[] => {
    if (!isNote(before)) return [];
    const after = output.events[outputOf.get(inputIndex) ?? -1];
    const to = after && isNote(after) ? after.channel : undefined;
    const { channel, noteNumber: pitch } = before;
    const stage = stageOn.get(channel);
    const allowed = isStrike(before)
      ? [channel, ...(stage?.channels ?? [])]
      : expected.release(channel, pitch);
    if (isStrike(before)) expected.strike(channel, pitch, to);
    if (to === undefined || allowed.includes(to)) return [];
    const message = `${describeEvent(before, stage?.map.middleC ?? 4)} went to channel ${to + 1}, where it does not belong`;
    return [complain('changed-event', { tick: input.ticks[inputIndex] ?? 0, channel: to, pitch }, message)];
  });
}

/** Where the notes of the input went, in order: a release goes where its note went, and anywhere if that is lost. */
function followNotes() {
  const open = new Map<number, { readonly went: (number | undefined)[]; next: number }>();
  const queueOf = (channel: number, pitch: number) => {
    const queue = open.get(channel * 128 + pitch) ?? { went: [], next: 0 };
    open.set(channel * 128 + pitch, queue);
    return queue;
  };
  return {
    strike: (channel: number, pitch: number, to: number | undefined) => queueOf(channel, pitch).went.push(to),
    release(channel: number, pitch: number): readonly number[] {
      const queue = queueOf(channel, pitch);
      if (queue.next === queue.went.length) return [channel];
      const went = queue.went[queue.next++];
      return went === undefined ? everyChannel : [went];
    },
  };
}

const everyChannel = Array.from({ length: 16 }, (_, channel) => channel);
