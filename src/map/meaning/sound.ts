import { articulationClasses, printedName } from './classes.js';
import { combineMeanings } from './combine.js';
import { readMeaning } from './read.js';
import type { ArticulationId, Meaning } from './types.js';

/** A library's sound, as its map names it. */
export interface NamedSound {
  /** The articulation's name in the map. */
  readonly name: string;
  /** What the map says that it means, in the map's order. */
  readonly means: readonly string[];
}

/**
 * What a note means that sounds with a library's articulation: those of its marks that the articulation realises, else
 * the first thing that the map says of it, else what its name says where that is a name of the tables ("pizzicato",
 * "tremolo"). Mutes, strokes and places on the string that the note is marked with are added. undefined where nothing
 * is known.
 *
 * @param marks of the note, by their canonical names
 */
export function soundMeaning({ name, means }: NamedSound, marks: Iterable<string> = []): Meaning | undefined {
  const marked = [...marks];
  const realised = marked.filter((mark) => means.includes(mark)).flatMap(meaningsOf);
  const [first] = means.flatMap(meaningsOf);
  const own = realised.length > 0 ? combineMeanings(realised) : (first ?? meaningOfName(name));
  const beside = marked.flatMap(meaningsOf).map(({ articulation: _, ...rest }) => rest);
  const all = combineMeanings([...beside, ...(own ? [own] : [])]);
  return Object.keys(all).length === 0 ? undefined : all;
}

/**
 * All that a library's sound may mean, whichever of it a note asks for: what the map says, in its order, else what its
 * name says. Empty where nothing is known.
 */
export function soundMeanings({ name, means }: NamedSound): readonly Meaning[] {
  const said = means.flatMap(meaningsOf);
  const named = said.length > 0 ? undefined : meaningOfName(name);
  return named ? [named] : said;
}

function meaningsOf(name: string): readonly Meaning[] {
  const read = readMeaning(name);
  return read.kind === 'known' ? [read.meaning] : [];
}

/** Subclasses by their printed names alone, where only one class has such. */
const bySubclassName = namedOnce();

function meaningOfName(name: string): Meaning | undefined {
  const read = readMeaning(name);
  if (read.kind === 'known') return read.meaning;
  const articulation = bySubclassName.get(printedName(name));
  return articulation ? { articulation } : undefined;
}

function namedOnce(): ReadonlyMap<string, ArticulationId> {
  const found = new Map<string, ArticulationId>();
  const twice = new Set<string>();
  for (const { type, subclasses } of articulationClasses)
    subclasses.forEach((title, subclass) => {
      const name = printedName(title);
      if (found.has(name)) twice.add(name);
      else found.set(name, { type, subclass, variation: 0 });
    });
  for (const name of twice) found.delete(name);
  return found;
}
