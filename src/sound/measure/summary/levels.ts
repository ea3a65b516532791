import type { ProbedLibrary } from '../library.js';
import type { MeasuredSlot } from '../note/slot.js';
import { isShaped } from '../plan/wanted.js';
import type { ControllerLevel, VelocityLevel } from '../result.js';
import { type Cell, levelsByValue } from './polish.js';

/** What each measured value of the dynamics controller comes to. Unit: LUFS. */
export function controllerLevels(
  slots: readonly MeasuredSlot[],
  library: ProbedLibrary,
): readonly ControllerLevel[] {
  const { controller } = library;
  if (controller === undefined) return [];
  const shaped = new Set(
    library.articulations.filter((one) => isShaped(one, library)).map(({ name }) => name),
  );
  const cells = slots.flatMap(({ slot, level }): Cell[] => {
    if (level === undefined || slot.value === undefined || !shaped.has(slot.articulation)) return [];
    const counts = slot.kind === 'note' || slot.kind === 'curve' || (slot.kind === 'pan' && slot.pan === 64);
    return counts ? [{ row: rowOf(slot), value: slot.value, dB: level }] : [];
  });
  return levelsByValue(cells).map(({ value, dB }) => ({ controller, value, dB }));
}

/** What each measured velocity of the articulations that velocity makes louder comes to. Unit: LUFS. */
export function velocityLevels(
  slots: readonly MeasuredSlot[],
  library: ProbedLibrary,
): readonly VelocityLevel[] {
  return library.articulations
    .filter((one) => !isShaped(one, library))
    .flatMap(({ name: articulation }) => {
      const cells = slots.flatMap(({ slot, level }): Cell[] => {
        const [note] = slot.notes;
        const counts =
          note && level !== undefined && slot.kind === 'note' && slot.articulation === articulation;
        return counts ? [{ row: rowOf(slot), value: note.velocity, dB: level }] : [];
      });
      return levelsByValue(cells).map(({ value: velocity, dB }) => ({ articulation, velocity, dB }));
    });
}

function rowOf({ articulation, notes }: MeasuredSlot['slot']): string {
  return `${articulation} ${notes[0]?.pitch ?? 0}`;
}
