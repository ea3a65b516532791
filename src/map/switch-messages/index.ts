// The messages that select recordings: each kind in a file of its own, listed in `list.ts`.
import { escapeText } from '../../diagnostics/index.js';
import type { Message } from '../../midi/index.js';
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
  const aspect = present<Pick<AnyMessage, 'aspect'>>({ aspect: text(source, field(tree, 'aspect')) });
  for (const kind of switchKinds) {
    const message = kind.read(source, tree, aspect);
    if (message) return message;
  }
  return undefined;
}

/** The aspect that a message names for itself; undefined where it has none. */
export function namedAspectOf(message: AnyMessage): string | undefined {
  return message.aspect;
}

/**
 * The aspect that a switch message occupies: all notes share one, each controller number has its own, program and
 * bank share one, the channel has one; one that is named stands by itself.
 */
export function aspectOf(message: SwitchMessage): string {
  const named = namedAspectOf(message);
  return named === undefined ? kinds[message.kind].aspect(message) : `aspect ${named}`;
}

/** The aspect of a message that names none, in words: `the switch key`. */
export function formatAspect(message: SwitchMessage): string {
  return kinds[message.kind].formatAspect(message);
}

/** What a message sets in the library, named aspects aside: `switch key 24`. */
export function subjectOf(message: SwitchMessage): string {
  return kinds[message.kind].subject(message);
}

/** A message as it reaches the library, which knows nothing of names of aspects. */
export function identityOf(message: SwitchMessage): string {
  return kinds[message.kind].identity(message);
}

/** Whether one message does all that another does. */
export function covers(one: SwitchMessage, other: SwitchMessage): boolean {
  return (
    one.kind === other.kind &&
    namedAspectOf(one) === namedAspectOf(other) &&
    kinds[one.kind].covers(one, other)
  );
}

/** Whether one message sets something that another of its aspect leaves as it was. */
export function setsMore(one: SwitchMessage, other: SwitchMessage): boolean {
  return one.kind === other.kind && kinds[one.kind].setsMore(one, other);
}

/** Whether what a message sets stays when the note is over. */
export function isLasting(message: SwitchMessage, isMomentary: boolean): boolean {
  return kinds[message.kind].isLasting(message, isMomentary);
}

/** Whether a switch key works only while it is held: as the message says, else as `switching.notes` does. */
export function isHeldKey(
  { held }: { readonly held?: boolean },
  { notes }: { readonly notes: 'latching' | 'momentary' },
): boolean {
  return held ?? notes === 'momentary';
}

/** The key, the controller or the channel (0–15) that a message keeps for itself. */
export function takenBy(message: SwitchMessage): Taken {
  return kinds[message.kind].taken(message);
}

/** The aspect as it is switched: what is held lies over what was latched, and leaves that as it was. */
export function sentAspectOf(
  message: SwitchMessage,
  switching: { readonly notes: 'latching' | 'momentary' },
): string {
  const isHeld = message.kind === 'note' && isHeldKey(message, switching);
  return isHeld ? `${aspectOf(message)}, held` : aspectOf(message);
}

/** What a message sends on a channel (0–15), keys aside. */
export function messagesOf(message: SwitchMessage, channel: number): readonly Message[] {
  return kinds[message.kind].sends(message, channel);
}

/** What in the music changes the aspect of a message. */
export function writersTo(message: SwitchMessage, isMomentary: boolean): readonly Writer[] {
  return kinds[message.kind].writers(message, isMomentary);
}

/** A message in a few words: `C-2`, `CC 20 = 64`. */
export function formatMessageShort(message: SwitchMessage, middleC: MiddleC): string {
  return kinds[message.kind].formatShort(message, middleC);
}

/** A message in full, the aspect that it names included: `note C-2 (0) in aspect mute`. */
export function formatMessage(message: SwitchMessage, middleC: MiddleC): string {
  const named = namedAspectOf(message);
  const within = named === undefined ? '' : ` in aspect ${escapeText(named)}`;
  return `${kinds[message.kind].format(message, middleC)}${within}`;
}
