import type { ArticulationMap, SwitchMessage } from '../model/map.js';
import { slotOf } from '../model/slot.js';

/** What an articulation puts into one slot. */
export interface SlotPlan {
  readonly slot: string;
  /** Equal where the messages are equal. */
  readonly content: string;
  readonly messages: readonly SwitchMessage[];
  /** Whether its keys are held while notes need them. */
  readonly isHeld: boolean;
}

/** What an articulation needs: the slots in the order in which they are sent. */
export type SwitchPlan = readonly SlotPlan[];

/** The plan of every articulation of a map, by name. Channels are not sent, so no plan has them. */
export function planSwitches(map: ArticulationMap): ReadonlyMap<string, SwitchPlan> {
  const isMomentary = map.switching.notes === 'momentary';
  return new Map(
    [...map.articulations].map(([name, { switch: messages }]) => [name, plan(messages, isMomentary)]),
  );
}

function plan(messages: readonly SwitchMessage[], isMomentary: boolean): SwitchPlan {
  const bySlot = new Map<string, SwitchMessage[]>();
  for (const message of messages) {
    if (message.kind === 'channel') continue;
    const slot = slotOf(message);
    const others = bySlot.get(slot);
    if (others) others.push(message);
    else bySlot.set(slot, [message]);
  }
  return [...bySlot].map(([slot, of]) => ({
    slot,
    content: JSON.stringify(of),
    messages: of,
    isHeld: isMomentary && of.some(({ kind }) => kind === 'note'),
  }));
}
