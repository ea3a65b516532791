import { classOfFifths, mod, nameOfFifths } from './fifths.js';
import type { Key } from './types.js';

/** A key with the signature of fewest signs; six flats rather than six sharps. */
export function keyOf(tonic: number, mode: Key['mode']): Key {
  const relative = mode === 'major' ? tonic : tonic + 3;
  const fifths = mod(relative * 7 + 6, 12) - 6;
  return { tonic, mode, name: `${nameOfFifths(tonicFifths({ mode, fifths }))} ${mode}`, fifths };
}

/** All 24 keys: 12 major from C upwards, then 12 minor. */
export const keys: readonly Key[] = Array.from({ length: 24 }, (_, index) =>
  keyOf(index % 12, index < 12 ? 'major' : 'minor'),
);

/** The tonic's place on the line of fifths. */
export function tonicFifths({ mode, fifths }: Pick<Key, 'mode' | 'fifths'>): number {
  return mode === 'major' ? fifths : fifths + 3;
}

/** Pitch classes of the key's own scale: major, or natural minor. */
export function scaleOf({ fifths }: Key): ReadonlySet<number> {
  return new Set([-1, 0, 1, 2, 3, 4, 5].map((step) => classOfFifths(fifths + step)));
}
