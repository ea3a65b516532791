import type { Articulation } from '../../../model/map.js';
import { slotOf } from '../../../model/slot.js';
import type { MapCheck } from './index.js';

/** same-switch: two articulations that the library could not tell apart. */
export const sameSwitches: MapCheck = ({ articulations }) => {
  const first = new Map<string, string>();
  return [...articulations.values()].flatMap((articulation) => {
    const key = contents(articulation);
    const other = first.get(key);
    if (other === undefined) {
      first.set(key, articulation.name);
      return [];
    }
    const what = articulation.switch.length === 0 ? 'no switch, and neither has' : 'the same switch as';
    return [
      {
        code: 'same-switch',
        severity: 'error',
        place: articulation.place,
        message: `${articulation.name} has ${what} ${other}`,
        hint: 'each articulation needs a switch of its own; two names for one sound are two marks in its means',
      } as const,
    ];
  });
};

/** What an articulation puts into its slots; the order of the messages does not matter. */
function contents({ switch: messages }: Articulation): string {
  return messages
    .map((message) => {
      const { group: _, ...rest } = { group: undefined, ...message };
      return `${slotOf(message)} ${JSON.stringify(rest)}`;
    })
    .sort()
    .join('\n');
}
