import { articulationClasses, printedName } from './classes.js';
import { meaningsByName } from './names.js';
import type { ArticulationId, Meaning } from './types.js';

/** A name that was looked up: what it means, that it has no class, or which names are spelled alike. */
export type Read =
  | { readonly kind: 'known'; readonly meaning: Meaning }
  | { readonly kind: 'none' }
  | { readonly kind: 'unknown'; readonly names: readonly string[] };

/** `class/subclass` by printed names, one entry for each. */
const byPrintedName = new Map(
  articulationClasses.flatMap(({ type, title, subclasses }) =>
    subclasses.map((name, subclass): [string, ArticulationId] => {
      return [`${printedName(title)}/${printedName(name)}`, { type, subclass, variation: 0 }];
    }),
  ),
);

/** Parts of printed names by which a class is also found: what stands before or behind a dash, and the British spelling. */
const shortClassNames: ReadonlyMap<string, string> = new Map([
  ['core-sounds', 'core-sounds-sustains-and-strikes'],
  ['core-sustains-and-strikes', 'core-sounds-sustains-and-strikes'],
  ['sustains-and-strikes', 'core-sounds-sustains-and-strikes'],
  ['same-note-trills', 'same-note-trills-repeats'],
  ['same-note-trills-and-repeats', 'same-note-trills-repeats'],
  ['additional-colors', 'additional-colors-sustained'],
  ['additional-colours', 'additional-colors-sustained'],
]);

/**
 * Reads what `means` may say: a MusicXML element name, a playing word, or a class and subclass of M2-123 by printed
 * names or by ids in hexadecimal (`staccatos-and-shorts/spiccato`, `11/5`), with a variation from 0 behind it where
 * there are several (`11/5/2`). Capitals, accents and the way words are joined do not matter.
 *
 * @example readMeaning('pizz.') // { kind: 'known', meaning: { articulation: { type: 0x11, subclass: 10, variation: 0 } } }
 */
export function readMeaning(text: string): Read {
  const plain = text.trim().toLowerCase().replace(/\s+/gu, ' ');
  const named = meaningsByName.get(plain);
  if (named !== undefined) return named ? { kind: 'known', meaning: named } : { kind: 'none' };
  const articulation = idOf(plain);
  if (articulation) return { kind: 'known', meaning: { articulation } };
  return { kind: 'unknown', names: [...meaningsByName.keys(), ...byPrintedName.keys()] };
}

function idOf(text: string): ArticulationId | undefined {
  const [first, second, third, ...more] = splitNames(text);
  if (first === undefined || second === undefined || more.length > 0) return undefined;
  const variation = third === undefined ? 0 : hexadecimal(third, 0, 15);
  const id = byIds(first, second) ?? byNames(first, second);
  return id && variation !== undefined ? { ...id, variation } : undefined;
}

/** Parts between slashes; a slash within a printed name is a dash by now, as in `fret-buzz-noise`. */
function splitNames(text: string): readonly string[] {
  return text.split('/').map((part) => part.trim());
}

function byNames(first: string, second: string): ArticulationId | undefined {
  const name = printedName(first);
  const title = shortClassNames.get(name) ?? name;
  const wanted = printedName(second);
  const exact = byPrintedName.get(`${title}/${wanted}`);
  if (exact) return exact;
  // The printed names of the plain sounds are long: "normal staccato off string". A unique beginning or end will do.
  const near = [...byPrintedName].filter(
    ([key]) =>
      key.startsWith(`${title}/`) && (key.endsWith(`-${wanted}`) || key.startsWith(`${title}/${wanted}-`)),
  );
  return near.length === 1 ? near[0]?.[1] : undefined;
}

function byIds(first: string, second: string): ArticulationId | undefined {
  const type = hexadecimal(first, 0x10, 0x17);
  const subclass = hexadecimal(second, 0, 15);
  if (type === undefined || subclass === undefined) return undefined;
  const known = articulationClasses.find((one) => one.type === type);
  return known && subclass < known.subclasses.length ? { type, subclass, variation: 0 } : undefined;
}

function hexadecimal(text: string, least: number, most: number): number | undefined {
  if (!/^(?:0x)?[0-9a-f]{1,2}$/u.test(text)) return undefined;
  const value = Number.parseInt(text.replace(/^0x/u, ''), 16);
  return value >= least && value <= most ? value : undefined;
}

/** An articulation by its printed names and ids: "staccatos-and-shorts/spiccato (11/5)". */
export function articulationName({ type, subclass, variation }: ArticulationId): string {
  const known = articulationClasses.find((one) => one.type === type);
  const hex = (value: number) => value.toString(16).toUpperCase();
  const ids = `${hex(type)}/${hex(subclass)}${variation > 0 ? `/${hex(variation)}` : ''}`;
  const name = known?.subclasses[subclass];
  return known && name !== undefined ? `${printedName(known.title)}/${printedName(name)} (${ids})` : ids;
}
