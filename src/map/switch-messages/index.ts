// The messages that select recordings: each kind in a file of its own, listed in `list.ts`.
import { escapeText } from '../../diagnostics/index.js';
import type { MessageEvent } from '../../midi/index.js';
import type { Tree } from '../../yaml/index.js';
import { field, present, type Source, text } from '../source/index.js';
import type { AnyMessage, MiddleC, SwitchKind, Taken } from './kind.js';
import { switchKinds } from './list.js';
import type { Writer } from './writers.js';

export { formatKinds, switchMessageSchema } from './schema.js';
export { type Writer, writerOf } from './writers.js';

/** One message that selects a recording. */
export type SwitchMessage = (typeof switchKinds)[number] extends infer K
  ? K extends SwitchKind<infer M>
    ? M
    : never
  : never;

/** The kind of a message ties the two together, so that each kind gets only messages of its own. */
const kinds = Object.fromEntries(switchKinds.map((kind) => [kind.kind, kind])) as unknown as Readonly<
  Record<SwitchMessage['kind'], SwitchKind<AnyMessage>>
>;

/** The message that a mapping means; undefined where it is faulty. */
export function readSwitchMessage(source: Source, tree: Tree): SwitchMessage | undefined {
  const group = present<Pick<AnyMessage, 'group'>>({ group: text(source, field(tree, 'group')) });
  for (const kind of switchKinds) {
    const message = kind.read(source, tree, group);
    if (message) return message;
  }
  return undefined;
}

/** The group of a message; undefined where it has none. */
export function groupOf(message: AnyMessage): string | undefined {
  return message.group;
}

/**
 * The slot that a switch message occupies: all notes share one, each controller number has its own, program and
 * bank share one, the channel has one; a group has one of its own.
 */
export function slotOf(message: SwitchMessage): string {
  const group = groupOf(message);
  return group === undefined ? kinds[message.kind].slot(message) : `group ${group}`;
}

/** The slot of a message without group, in words: `the switch key`. */
export function formatSlot(message: SwitchMessage): string {
  return kinds[message.kind].formatSlot(message);
}

/** What a message sets in the library, groups aside: `switch key 24`. */
export function subjectOf(message: SwitchMessage): string {
  return kinds[message.kind].subject(message);
}

/** A message as it reaches the library, which knows nothing of groups. */
export function identityOf(message: SwitchMessage): string {
  return kinds[message.kind].identity(message);
}

/** Whether one message does all that another does. */
export function covers(one: SwitchMessage, other: SwitchMessage): boolean {
  return one.kind === other.kind && groupOf(one) === groupOf(other) && kinds[one.kind].covers(one, other);
}

/** Whether one message sets something that another of its slot leaves as it was. */
export function setsMore(one: SwitchMessage, other: SwitchMessage): boolean {
  return one.kind === other.kind && kinds[one.kind].setsMore(one, other);
}

/** Whether what a message sets stays when the note is over. */
export function isLasting({ kind }: SwitchMessage, isMomentary: boolean): boolean {
  return kinds[kind].isLasting(isMomentary);
}

/** The key, the controller or the channel (0–15) that a message keeps for itself. */
export function takenBy(message: SwitchMessage): Taken {
  return kinds[message.kind].taken(message);
}

/** The events that a message becomes on a channel (0–15), keys aside. */
export function messageEvents(message: SwitchMessage, channel: number): readonly MessageEvent[] {
  return kinds[message.kind].events(message, channel);
}

/** What in the music changes the slot of a message. */
export function writersTo(message: SwitchMessage, isMomentary: boolean): readonly Writer[] {
  return kinds[message.kind].writers(message, isMomentary);
}

/** A message in a few words: `C-2`, `CC 20 = 64`. */
export function formatMessageShort(message: SwitchMessage, middleC: MiddleC): string {
  return kinds[message.kind].formatShort(message, middleC);
}

/** A message in full, its group included: `note C-2 (0) in group mute`. */
export function formatMessage(message: SwitchMessage, middleC: MiddleC): string {
  const group = groupOf(message);
  const within = group === undefined ? '' : ` in group ${escapeText(group)}`;
  return `${kinds[message.kind].format(message, middleC)}${within}`;
}
