import { median } from '../../signal/index.js';
import type { ProbedLibrary } from '../library.js';
import { type Signature, unlikeness } from '../note/signature.js';
import type { MeasuredSlot } from '../note/slot.js';
import type { Alike } from '../result.js';

/** Sounds that differ by less are one, played twice: own choice, no source. Unit: dB. */
const leastUnlike = 1;

/** Articulations that sound alike although they are switched differently: a switch of them may do nothing. */
export function alikeIn(slots: readonly MeasuredSlot[], { articulations }: ProbedLibrary): readonly Alike[] {
  const signatures = new Map(articulations.map(({ name }) => [name, byPitch(slots, name)]));
  return articulations.flatMap(({ name: first }, index) =>
    articulations.slice(index + 1).flatMap(({ name: second }): Alike[] => {
      const [own, other] = [signatures.get(first), signatures.get(second)];
      const differences = [...(own ?? [])].flatMap(([pitch, signature]) => {
        const its = other?.get(pitch);
        return its ? [unlikeness(signature, its)] : [];
      });
      const dB = median(differences);
      return dB < leastUnlike ? [{ articulations: [first, second], dB }] : [];
    }),
  );
}

function byPitch(slots: readonly MeasuredSlot[], articulation: string): ReadonlyMap<number, Signature> {
  return new Map(
    slots.flatMap(({ slot, signature }) =>
      signature && slot.articulation === articulation
        ? [[slot.notes[0]?.pitch ?? 0, signature] as const]
        : [],
    ),
  );
}
