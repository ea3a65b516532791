import { type Nearness, nearnessOf } from './match.js';
import { type NamedSound, soundMeanings } from './sound.js';

/** How like two sounds of different libraries are: by what they mean, or by their name where a map does not say that. */
export type Likeness = Nearness | 'name';

/** What stands for a sound in another library. */
export interface Counterpart {
  readonly likeness: Likeness;
  /** Index among the sounds that were offered; null where there is none. */
  readonly sound: number | null;
}

/** From the best. What only shares a name may be anything, and comes behind all that is known. */
const order: readonly Likeness[] = ['same', 'variation', 'plain', 'name', 'lost'];

/** How near two sounds come to each other, and by which of what each means. */
interface Rank {
  readonly likeness: Likeness;
  readonly wanted: number;
  readonly offered: number;
}

/** How like a sound of another library is to the one that is wanted: the nearest of all that both mean. */
export function likenessOf(wanted: NamedSound, offered: NamedSound): Likeness {
  return rankOf(wanted, offered).likeness;
}

/**
 * The sound of another library that stands for one: the nearest, see `matchMeaning`. Of several that come as near, the
 * one that does so by what the wanted sound means before all else, then the one of the same name, then the first that
 * is offered.
 *
 * @param sounds of the other library, in its map's order
 */
export function counterpartOf(wanted: NamedSound, sounds: readonly NamedSound[]): Counterpart {
  const ranked = sounds.map((offered, sound) => {
    const { likeness, wanted: of, offered: by } = rankOf(wanted, offered);
    return { likeness, sound, keys: [order.indexOf(likeness), of, offered.name === wanted.name ? 0 : 1, by] };
  });
  const [best] = ranked.sort(
    (one, other) => firstDifference(one.keys, other.keys) || one.sound - other.sound,
  );
  return !best || best.likeness === 'lost'
    ? { likeness: 'lost', sound: null }
    : { likeness: best.likeness, sound: best.sound };
}

function rankOf(wanted: NamedSound, offered: NamedSound): Rank {
  const meant = soundMeanings(wanted);
  const offers = soundMeanings(offered);
  const isKnown = meant.length > 0 && offers.length > 0;
  const isNamed = !isKnown && wanted.name === offered.name;
  let best: Rank = { likeness: isNamed ? 'name' : 'lost', wanted: 0, offered: 0 };
  meant.forEach((want, index) => {
    offers.forEach((offer, at) => {
      const likeness = nearnessOf(want, offer);
      if (order.indexOf(likeness) < order.indexOf(best.likeness))
        best = { likeness, wanted: index, offered: at };
    });
  });
  return best;
}

function firstDifference(a: readonly number[], b: readonly number[]): number {
  return a.map((value, index) => value - (b[index] ?? 0)).find((difference) => difference !== 0) ?? 0;
}
