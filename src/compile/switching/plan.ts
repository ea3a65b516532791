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
  /** The number of the aspect, and that of the content: equal where the messages are equal. */
  readonly number: number;
  readonly content: number;
  /** The switch key, if the message is a note. */
  readonly key: number | undefined;
  /** Whether the key is held while notes need it; a latching key is tapped. */
  readonly isHeld: boolean;
  /** What any other message sends, as often as it is needed. */
  readonly messages: readonly Message[];
}

/** What an articulation needs: the aspects in the order in which they are sent. */
export type SwitchPlan = readonly AspectPlan[];

/** What the articulations of a map need on a channel. */
export interface SwitchPlans {
  /** By the numbers of articulations. */
  readonly of: readonly SwitchPlan[];
  /** The numbers of aspects. */
  readonly aspects: ReadonlyMap<string, number>;
}

/**
 * The plan of every articulation of a map on a channel (0–15). Channels are not sent, so no plan has them.
 *
 * @param names the articulations by their numbers
 */
export function planSwitches(map: ArticulationMap, names: readonly string[], channel: number): SwitchPlans {
  const aspects = new Map<string, number>();
  const contents = new Map<string, number>();
  const planOf = (message: SwitchMessage): readonly AspectPlan[] => {
    const { key, channel: route } = takenBy(message);
    if (route !== undefined) return [];
    const aspect = sentAspectOf(message, map.switching);
    return [
      {
        aspect,
        number: numberIn(aspects, aspect),
        content: numberIn(contents, JSON.stringify(message)),
        key,
        isHeld: message.kind === 'note' && isHeldKey(message, map.switching),
        messages: messagesOf(message, channel),
      },
    ];
  };
  const of = names.map((name) => map.articulations.get(name)?.switch.flatMap(planOf) ?? []);
  return { of, aspects };
}

/** The number of a text among those that were numbered before, or the next one. */
function numberIn(numbers: Map<string, number>, text: string): number {
  const number = numbers.get(text) ?? numbers.size;
  numbers.set(text, number);
  return number;
}
