import { channelOf, type Events, firstData, isChannelMessage, messageAt, tickOf } from '../../midi/index.js';
import { contentOf } from '../content.js';
import { isCopied } from '../copied.js';
import { effectsOf } from '../effects.js';
import { isNote } from '../pairs.js';
import type { Stage } from '../part.js';
import type { Violation } from '../violations.js';
import type { Alignment } from './align.js';
import { describeEvent } from './describe.js';
import { Roles, role } from './roles.js';

/**
 * Tells what each event of a compiled track is. Copies stand behind what they are copied from, before the next event of
 * the music; missing-copy: one is not there.
 */
export function rolesOf(
  events: Events,
  stages: readonly Stage[],
  { inputOf }: Alignment,
): { readonly roles: Roles; readonly violations: readonly Violation[] } {
  const roles = new Roles(events.length);
  const violations: Violation[] = [];
  const switches = stages.map((stage) => switchesOf(events, stage));
  let expected: Expected | undefined;
  const expect = (next: Expected | undefined) => {
    if (expected) violations.push(...missingCopies(events, expected));
    expected = next;
  };
  for (let event = 0; event < events.length; event++) {
    if (expected && tickOf(events, expected.event) !== tickOf(events, event)) expect(undefined);
    const copy = expected && isCopy(events, event, expected) ? expected : undefined;
    const isOfInput = (inputOf[event] ?? -1) >= 0;
    // What the input has itself on that channel may be the same as the copy: then the copy is the next of them.
    if (isOfInput && !copy) expect(copiesExpected(events, event, stages));
    if (isOfInput) roles.set(event, role.music);
    else if (copy) {
      copy.channels.delete(channelOf(events, event));
      roles.set(event, role.copy);
    } else if (switches.some((isSwitch) => isSwitch(event))) roles.set(event, role.switch);
  }
  expect(undefined);
  return { roles, violations };
}

/** An event of the music, and the channels that it has not reached yet. */
interface Expected {
  readonly stage: Stage;
  readonly event: number;
  readonly channels: Set<number>;
}

function missingCopies(events: Events, { stage, event, channels }: Expected): readonly Violation[] {
  const what = describeEvent(events, event, stage.map.middleC);
  const tick = tickOf(events, event);
  return [...channels].map((channel) =>
    stage.complain('missing-copy', { tick, channel }, `${what} does not go to channel ${channel + 1}`),
  );
}

function copiesExpected(events: Events, event: number, stages: readonly Stage[]): Expected | undefined {
  if (!isCopied(events, event)) return undefined;
  const stage = stages.find(({ part }) => part.channel === channelOf(events, event));
  return stage && stage.copiedTo.length > 0 ? { stage, event, channels: new Set(stage.copiedTo) } : undefined;
}

/** Whether an event says on a channel that is still to be reached what an event of the music says on its own. */
function isCopy(events: Events, event: number, { event: original, channels }: Expected): boolean {
  const isOnOther = isCopied(events, event) && channels.has(channelOf(events, event));
  const difference = messageAt(events, event) ^ messageAt(events, original);
  return isOnOther && (difference & 0xf0ffff) === 0;
}

/** Whether an event is one that the map of a part sends. */
function switchesOf(events: Events, { library, map, channels }: Stage): (event: number) => boolean {
  const all = new Set(effectsOf(map).flatMap(({ sent }) => sent));
  return (event) => {
    if (!isChannelMessage(events, event) || !channels.has(channelOf(events, event))) return false;
    return isNote(events, event)
      ? library.keyAspects.has(firstData(events, event))
      : all.has(contentOf(events, event));
  };
}
