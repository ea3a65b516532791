import type { Diagnostic } from '../../../model/diagnostic.js';
import type { Articulation, ArticulationMap } from '../../../model/map.js';
import { slotOf } from '../../../model/slot.js';
import type { MapCheck } from './index.js';

/**
 * slot-left-behind: a slot that some articulations set and others do not, so that what was last set there goes on
 * under the others. Groups are meant to be independent, momentary keys are let go, channels are chosen for each note.
 */
export const slotsLeftBehind: MapCheck = (map) => {
  const articulations = [...map.articulations.values()];
  const slots = new Set(articulations.flatMap((articulation) => lastingSlots(map, articulation)));
  return [...slots].flatMap((slot): Diagnostic[] => {
    const setting = articulations.filter((articulation) => lastingSlots(map, articulation).includes(slot));
    const leaving = articulations.filter((articulation) => !setting.includes(articulation));
    const [first] = leaving;
    if (!first) return [];
    const names = (of: readonly Articulation[]) => of.map(({ name }) => name).join(', ');
    return [
      {
        code: 'slot-left-behind',
        severity: 'warning',
        place: first.place,
        message: `${names(setting)} set ${slot === 'note' ? 'the switch key' : slot}, but ${names(leaving)} leave it as it was`,
        hint: 'after the former, the latter sound with what is still set; let each say what it needs, or give the message a group if that is meant',
      },
    ];
  });
};

function lastingSlots({ switching }: ArticulationMap, { switch: messages }: Articulation): readonly string[] {
  return messages.flatMap((message) => {
    if (message.kind === 'channel' || message.group !== undefined) return [];
    return message.kind === 'note' && switching.notes === 'momentary' ? [] : [slotOf(message)];
  });
}
