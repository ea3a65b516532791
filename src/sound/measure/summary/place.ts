import { median } from '../../signal/index.js';
import type { MeasuredSlot } from '../note/slot.js';

/** Where the recording is and how wide, over all articulations; null where nothing told. */
export function placeIn(slots: readonly MeasuredSlot[]): {
  readonly seat: number | null;
  readonly width: number | null;
} {
  const notes = slots.filter(({ slot }) => slot.kind === 'note');
  return {
    seat: finite(median(notes.flatMap(({ seat }) => seat ?? []))),
    width: finite(median(notes.flatMap(({ width }) => width ?? []))),
  };
}

/** Each articulation's own seat. */
export function seatsIn(slots: readonly MeasuredSlot[]): ReadonlyMap<string, number> {
  const names = [...new Set(slots.map(({ slot }) => slot.articulation))];
  return new Map(
    names.flatMap((name) => {
      const { seat } = placeIn(slots.filter(({ slot }) => slot.articulation === name));
      return seat === null ? [] : [[name, seat] as const];
    }),
  );
}

/** What controller 10 does, by rising value. Unit: dB, right less left. */
export function panIn(
  slots: readonly MeasuredSlot[],
): readonly { readonly value: number; readonly dB: number }[] {
  return slots
    .flatMap(({ slot, difference }) =>
      slot.kind === 'pan' && difference !== undefined ? [{ value: slot.pan, dB: difference }] : [],
    )
    .sort((a, b) => a.value - b.value);
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}
