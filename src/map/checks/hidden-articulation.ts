import { type Diagnostic, diagnostic, quoted } from '../../diagnostics/index.js';
import { slotOf } from '../slot.js';
import type { Articulation, SwitchMessage } from '../types.js';
import type { MapCheck } from './check.js';

/**
 * hidden-articulation: everything that one articulation sets, another sets too, and a group or a bank besides, which
 * the first leaves as it was. After the other, the library plays the other for both. Slots without a group are told as
 * slot-left-behind; momentary keys are let go.
 */
export const hiddenArticulations: MapCheck = ({ articulations, switching }, { isSure }) => {
  const all = [...articulations.values()];
  if (!all.every(isSure)) return [];
  const isMomentary = switching.notes === 'momentary';
  return all.flatMap((hidden): Diagnostic[] => {
    const other = all.find((one) => one !== hidden && hides(one, hidden, isMomentary));
    if (!other) return [];
    return [
      diagnostic(
        'hidden-articulation',
        hidden.place,
        `after ${quoted(other.name)}, ${quoted(hidden.name)} sounds like it: all that it sets is set already`,
        `let ${quoted(hidden.name)} say what it needs of the group or the bank too`,
      ),
    ];
  });
};

function hides(other: Articulation, hidden: Articulation, isMomentary: boolean): boolean {
  const byslot = new Map(other.switch.map((message) => [slotOf(message), message]));
  const isSame = hidden.switch.every((message) => {
    const twin = byslot.get(slotOf(message));
    return twin !== undefined && covers(twin, message);
  });
  if (!isSame || hidden.switch.length === 0) return false;
  const slots = new Set(hidden.switch.map(slotOf));
  const more = other.switch.filter((message) => !slots.has(slotOf(message)));
  const isLasting = (message: SwitchMessage) =>
    'group' in message && message.group !== undefined && !(isMomentary && message.kind === 'note');
  const bank = hidden.switch.some(
    (message) =>
      message.kind === 'program' && !message.bank && bankOf(byslot.get(slotOf(message))) !== undefined,
  );
  return more.length > 0 ? more.every(isLasting) : bank;
}

/** Whether one message does all that another does. */
function covers(twin: SwitchMessage, message: SwitchMessage): boolean {
  if (twin.kind === 'program' && message.kind === 'program')
    return twin.program === message.program && (!message.bank || String(twin.bank) === String(message.bank));
  return JSON.stringify(twin) === JSON.stringify(message);
}

function bankOf(message: SwitchMessage | undefined): readonly [number, number] | undefined {
  return message?.kind === 'program' ? message.bank : undefined;
}
