import type { MidiEvent, Track } from '../../midi/index.js';
import { copiedTypes } from '../copied.js';
import { contentOf, effectsOf } from '../effects.js';
import { isNote, isStrike } from '../pairs.js';
import type { Stage } from '../part.js';
import type { Violation } from '../violations.js';
import type { Alignment } from './align.js';
import { describeEvent } from './describe.js';
import { identityOf } from './identity.js';
import type { Role } from './roles.js';

/**
 * Tells what each event of a compiled track is. Copies stand behind what they are copied from, before the next event of
 * the music; missing-copy: one is not there.
 */
export function rolesOf(
  { events, ticks }: Track,
  stages: readonly Stage[],
  { inputOf }: Alignment,
): { readonly roles: readonly Role[]; readonly violations: readonly Violation[] } {
  const violations: Violation[] = [];
  const switches = stages.map(switchesOf);
  let expected: Expected | undefined;
  const expect = (next: Expected | undefined) => {
    if (expected) violations.push(...missingCopies(expected));
    expected = next;
  };
  const roles = events.map((event, index): Role => {
    const tick = ticks[index] ?? 0;
    const isOfInput = (inputOf[index] ?? -1) >= 0;
    if (expected?.tick !== tick) expect(undefined);
    const copy = expected && isCopy(event, expected) ? expected : undefined;
    if (isOfInput) {
      // What the input has itself on that channel may be the same as the copy: then the copy is the next of them.
      if (!copy) expect(copiesExpected(event, tick, stages));
      return 'music';
    }
    if (copy && 'channel' in event) {
      copy.channels.delete(event.channel);
      return 'copy';
    }
    return switches.some((isSwitch) => isSwitch(event)) ? 'switch' : 'alien';
  });
  expect(undefined);
  return { roles, violations };
}

/** An event of the music, and the channels that it has not reached yet. */
interface Expected {
  readonly stage: Stage;
  readonly event: MidiEvent;
  readonly tick: number;
  readonly channels: Set<number>;
}

function missingCopies({ stage, event, tick, channels }: Expected): readonly Violation[] {
  const what = describeEvent(event, stage.map.middleC);
  return [...channels].map((channel) =>
    stage.complain('missing-copy', { tick, channel }, `${what} does not go to channel ${channel + 1}`),
  );
}

function copiesExpected(event: MidiEvent, tick: number, stages: readonly Stage[]): Expected | undefined {
  if (!copiedTypes.has(event.type) || !('channel' in event)) return undefined;
  const stage = stages.find(({ part }) => part.channel === event.channel);
  return stage && stage.copiedTo.length > 0
    ? { stage, event, tick, channels: new Set(stage.copiedTo) }
    : undefined;
}

function isCopy(event: MidiEvent, { event: original, channels }: Expected): boolean {
  if (event.type !== original.type || !('channel' in event) || !channels.has(event.channel)) return false;
  return (
    identityOf({ ...event, channel: 0 }, sameChannel) ===
    identityOf({ ...original, channel: 0 } as typeof event, sameChannel)
  );
}

const sameChannel = (channel: number) => channel;

/** Whether an event is one that the map of a part sends. */
function switchesOf({ library, map, channels }: Stage): (event: MidiEvent) => boolean {
  const all = new Set(effectsOf(map).flatMap(({ sent }) => sent));
  return (event) => {
    if (!('channel' in event) || !channels.has(event.channel)) return false;
    if (isNote(event))
      return library.keyAspects.has(event.noteNumber) && (isStrike(event) || event.type === 'noteOff');
    const content = contentOf(event);
    return content !== undefined && all.has(content);
  };
}
