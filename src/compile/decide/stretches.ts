import type { MeasuredNote } from '../../midi/index.js';
import type { Choice, Choices } from './choices.js';

/** What each onset of a line may be given. */
export interface LineChoices {
  /** Those of an onset, the plain one first, behind what the onset before it was given. */
  of(onset: number, previous: string | undefined): readonly Choice[];
}

/**
 * The choices of a line's onsets by their top notes. A note near a bound is only ever given what the plain ladder gives
 * to a note around it: to one of the stretch of notes near bounds in which it stands, or to the clear note at either end
 * of it. Three staccatos of three lengths do not become legato because that would be one articulation.
 *
 * @param tops the top note of each onset
 */
export function choicesAlong(tops: readonly MeasuredNote[], choices: Choices): LineChoices {
  const first: (readonly Choice[])[] = [];
  let before: string | undefined;
  for (const top of tops) {
    const all = choices.all(top, before);
    first.push(all);
    before = all[0]?.articulation;
  }
  const allowed = aroundEach(first);
  const among = (onset: number, all: readonly Choice[]) =>
    all.length < 2
      ? all
      : all.filter(({ articulation }, index) => index === 0 || allowed.get(onset)?.has(articulation));
  const once = first.map((all, onset) => among(onset, all));
  return {
    of: (onset, previous) => {
      const top = tops[onset];
      if (!choices.asksPrevious || !top) return once[onset] ?? [];
      return among(onset, choices.all(top, previous));
    },
  };
}

/**
 * What the plain ladder gives around each onset that is near a bound: to its stretch of such onsets, and to the clear
 * one at either end of that.
 */
function aroundEach(all: readonly (readonly Choice[])[]): ReadonlyMap<number, ReadonlySet<string>> {
  const around = new Map<number, Set<string>>();
  const add = (to: Set<string>, onset: number) => {
    const plain = all[onset]?.[0]?.articulation;
    if (plain !== undefined) to.add(plain);
  };
  let open: Set<string> | undefined;
  for (let onset = 0; onset < all.length; onset++) {
    const isNear = (all[onset]?.length ?? 0) > 1;
    if (!open && isNear) {
      open = new Set();
      add(open, onset - 1);
    }
    if (!open) continue;
    add(open, onset);
    if (isNear) around.set(onset, open);
    else open = undefined;
  }
  return around;
}
