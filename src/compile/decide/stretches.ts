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
    all.filter(({ articulation }, index) => index === 0 || allowed[onset]?.has(articulation));
  const once = first.map((all, onset) => among(onset, all));
  return {
    of: (onset, previous) => {
      const top = tops[onset];
      if (!choices.asksPrevious || !top) return once[onset] ?? [];
      return among(onset, choices.all(top, previous));
    },
  };
}

/** For each onset, what the plain ladder gives to the notes around it. */
function aroundEach(all: readonly (readonly Choice[])[]): readonly ReadonlySet<string>[] {
  const sets: Set<string>[] = [];
  let open = new Set<string>();
  all.forEach((choices, onset) => {
    const plain = choices[0]?.articulation;
    if (plain !== undefined) open.add(plain);
    sets[onset] = open;
    // A clear note ends one stretch and begins the next.
    if (choices.length < 2) open = new Set(plain === undefined ? [] : [plain]);
  });
  return sets;
}
