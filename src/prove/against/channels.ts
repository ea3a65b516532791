import { channelOf, type Events, firstData, isNoteOn, tickOf } from '../../midi/index.js';
import { isNote, pairsOf } from '../pairs.js';
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
  input: Events,
  output: Events,
  { inputOf }: Alignment,
  stages: readonly Stage[],
  complain: Complain,
): readonly Violation[] {
  // Where no part has a second channel, notes were only found on their own.
  if (stages.every(({ channels }) => channels.size === 1)) return [];
  const stageOn = new Map(stages.map((stage) => [stage.part.channel, stage]));
  const { partner } = pairsOf(input, () => true);
  /** The channel to which each event of the input went; −1 where it is lost. */
  const went = new Int8Array(input.length).fill(-1);
  for (let event = 0; event < output.length; event++)
    if ((inputOf[event] ?? -1) >= 0) went[inputOf[event] ?? 0] = channelOf(output, event);

  /** A release goes where its note went, and anywhere if that is lost; without a note it stays. */
  const isAllowed = (event: number, to: number) => {
    const channel = channelOf(input, event);
    if (isNoteOn(input, event)) return to === channel || stageOn.get(channel)?.channels.has(to) === true;
    const on = partner[event] ?? -1;
    if (on < 0) return to === channel;
    return went[on] === -1 || went[on] === to;
  };
  const violations: Violation[] = [];
  for (let event = 0; event < input.length; event++) {
    const to = went[event] ?? -1;
    if (!isNote(input, event) || to < 0 || isAllowed(event, to)) continue;
    const middleC = stageOn.get(channelOf(input, event))?.map.middleC ?? 4;
    const message = `${describeEvent(input, event, middleC)} went to channel ${to + 1}, where it does not belong`;
    const spot = { tick: tickOf(input, event), channel: to, pitch: firstData(input, event) };
    violations.push(complain('changed-event', spot, message));
  }
  return violations;
}
