import type { PlayedNote } from '../play/index.js';
import type { Alignment, Pair, TakenNote, WrittenNote } from './notes.js';
import { rising } from './rising.js';

/** Players begin an ornament a little early or late, and end it so. Unit: ms. */
const slack = 150;
/** An ornament's other note may be a semitone off what the key has, as other editions would. */
const spread = 1;

/** A written note, as it is played with its ornament. */
export type OrnamentedNote = WrittenNote & Pick<PlayedNote, 'ornament'>;

/** An alignment in which the notes of an ornament are their written note's. */
export interface OrnamentedAlignment extends Alignment {
  /** Notes beyond the first that belong to a written note. */
  readonly ornamental: readonly Pair[];
}

/** Where an ornament is heard in the take, and its keys. Unit: ms. */
interface Heard {
  readonly index: number;
  readonly begin: number;
  readonly end: number;
  readonly lowest: number;
  readonly highest: number;
}

/**
 * Gives the notes that were played too many to the ornaments that they belong to: those of an ornament's pitches, while it
 * is heard. An ornament is one written note, however it is played; its own pitch is heard several times, and the first
 * of them is the note.
 */
export function withOrnamental(
  written: readonly OrnamentedNote[],
  taken: readonly TakenNote[],
  alignment: Alignment,
): OrnamentedAlignment {
  const all = heardOrnaments(written, taken, alignment);
  if (all.length === 0) return { ...alignment, ornamental: [] };
  const { pairs, extra } = firstOfOrnaments(all, written, taken, alignment);
  const ornamental = extra.flatMap((index): Pair[] => {
    const { ms = 0, pitch = 0 } = taken[index] ?? {};
    const near = all.filter(({ lowest, highest }) => pitch >= lowest && pitch <= highest);
    const [nearest] = near
      .map((one) => ({ one, off: Math.max(one.begin - ms, ms - one.end, 0) }))
      .filter(({ off }) => off <= slack)
      .sort((a, b) => a.off - b.off || b.one.begin - a.one.begin);
    return nearest ? [{ written: nearest.one.index, taken: index }] : [];
  });
  const used = new Set(ornamental.map((pair) => pair.taken));
  return { ...alignment, pairs, extra: extra.filter((index) => !used.has(index)), ornamental };
}

/** Ornaments of several notes, by the tempo of the notes that are none. */
function heardOrnaments(
  written: readonly OrnamentedNote[],
  taken: readonly TakenNote[],
  { pairs, extra }: Alignment,
): readonly Heard[] {
  const plain = pairs.filter((pair) => !written[pair.written]?.ornament);
  const points = (plain.length > 1 ? plain : pairs).map((pair) => ({
    from: written[pair.written]?.time ?? 0,
    to: taken[pair.taken]?.ms ?? 0,
  }));
  if (points.length < 2 || extra.length === 0) return [];
  const msAt = rising(points);
  return written.flatMap(({ ornament }, index): Heard[] => {
    if (!ornament || ornament.notes.length < 2) return [];
    const pitches = ornament.notes.map(({ pitch }) => pitch);
    return [
      {
        index,
        begin: msAt(Math.min(...ornament.notes.map(({ tick }) => tick))),
        end: msAt(Math.max(...ornament.notes.map(({ endTick }) => endTick))),
        lowest: Math.min(...pitches) - spread,
        highest: Math.max(...pitches) + spread,
      },
    ];
  });
}

/** Of notes of an ornament's own pitch the first is its written note; order alone may have found a later one. */
function firstOfOrnaments(
  all: readonly Heard[],
  written: readonly OrnamentedNote[],
  taken: readonly TakenNote[],
  { pairs, extra }: Alignment,
): Pick<Alignment, 'pairs' | 'extra'> {
  const paired = new Map(pairs.map((pair) => [pair.written, pair.taken]));
  const free = new Set(extra);
  for (const { index, begin, end } of all) {
    const now = paired.get(index);
    const pitch = written[index]?.pitch;
    if (now === undefined) continue;
    const first = [...free].find((one) => {
      const { ms = 0, pitch: played } = taken[one] ?? {};
      return played === pitch && ms >= begin - slack && ms <= end;
    });
    if (first === undefined || (taken[first]?.ms ?? 0) >= (taken[now]?.ms ?? 0)) continue;
    paired.set(index, first);
    free.delete(first);
    free.add(now);
  }
  return {
    pairs: pairs.map((pair) => ({ ...pair, taken: paired.get(pair.written) ?? pair.taken })),
    extra: [...free].sort((a, b) => a - b),
  };
}
