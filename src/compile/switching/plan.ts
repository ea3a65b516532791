import {
  type ArticulationMap,
  isHeldKey,
  messagesOf,
  type SwitchMessage,
  sentAspectOf,
  takenBy,
} from '../../map/index.js';
import type { Message } from '../../midi/index.js';

/** What an articulation puts into one aspect. A checked map has one message for each aspect of an articulation. */
export interface AspectPlan {
  readonly aspect: string;
  /** Equal where the messages are equal. */
  readonly content: string;
  /** The switch key, if the message is a note. */
  readonly key: number | undefined;
  /** Whether the key is held while notes need it; a latching key is tapped. */
  readonly isHeld: boolean;
  /** What any other message sends, as often as it is needed. */
  readonly messages: readonly Message[];
}

/** What an articulation needs: the aspects in the order in which they are sent. */
export type SwitchPlan = readonly AspectPlan[];

/** The plan of every articulation of a map on a channel (0–15), by name. Channels are not sent, so no plan has them. */
export function planSwitches(map: ArticulationMap, channel: number): ReadonlyMap<string, SwitchPlan> {
  const planOf = (message: SwitchMessage): readonly AspectPlan[] => {
    const { key, channel: route } = takenBy(message);
    if (route !== undefined) return [];
    return [
      {
        aspect: sentAspectOf(message, map.switching),
        content: JSON.stringify(message),
        key,
        isHeld: message.kind === 'note' && isHeldKey(message, map.switching),
        messages: messagesOf(message, channel),
      },
    ];
  };
  return new Map(
    [...map.articulations].map(([name, { switch: messages }]) => [name, messages.flatMap(planOf)]),
  );
}
