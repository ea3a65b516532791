import { instrumentOf } from '../music/index.js';

/** The map that a part names where nothing is known of it; `keyslip init` writes one. */
export const unknownMap = 'my-library.yaml';

/** What a part of a recording tells of itself. */
export interface Told {
  /** The name of its track, or the name that it has on its channel; '' where it has none. */
  readonly name: string;
  /** Its first program, 0–127. */
  readonly program?: number;
  /** 1–16, where its track has several channels, whose name is none of this part's own. */
  readonly channel?: number;
}

/** The map that a part is likely to need, and others that are as likely. */
export interface GuessedMap {
  readonly map: string;
  readonly others: readonly string[];
}

/**
 * Guesses the map of a part by its name, else by its program, else by channel 10 (percussion in General MIDI 1, RP-003):
 * the map of that instrument among those that are there, first the one with the part's number. Where there is none, a
 * name for one, which parts of one kind share: Violin 1 and Violin 2 both name violin.yaml.
 *
 * @param maps paths of the maps that are there, as a cue would write them
 */
export function guessMap(told: Told, maps: readonly string[]): GuessedMap {
  const words = wordsOf(told.name);
  const kind = kindOf(told, words);
  const named = kind === '' ? [] : maps.filter((map) => fits(map, kind, words));
  const number = numberOf(told.name);
  const numbered = named.filter((map) => number !== undefined && numberOf(stemOf(map)) === number);
  const [map, ...others] = numbered.length > 0 ? numbered : named;
  if (map !== undefined) return { map, others };
  return { map: kind === '' ? unknownMap : `${kind}.yaml`, others: [] };
}

/** What parts of one kind have in common, as it would stand in a file's name; '' where nothing is told. */
function kindOf({ name, program, channel }: Told, words: readonly string[]): string {
  const instrument = instrumentOf(name, program);
  if (instrument !== undefined) return wordsOf(instrument).join('-');
  if (channel === undefined) return words.join('-');
  return channel === 10 ? 'percussion' : '';
}

/** Whether a map's file is named after an instrument, or has all the words of a part in its name. */
function fits(map: string, kind: string, words: readonly string[]): boolean {
  const stem = stemOf(map);
  const own = wordsOf(stem);
  const instrument = instrumentOf(stem.replaceAll(/[-_.]/gu, ' '));
  if (instrument !== undefined && wordsOf(instrument).join('-') === kind) return true;
  return words.length > 0 && words.every((word) => own.includes(word));
}

function stemOf(map: string): string {
  return map.replace(/^.*\//u, '').replace(/\.ya?ml$/u, '');
}

/** Numbers of desks and parts, and what is said about them. */
const counting = /^(\d+(st|nd|rd|th)?|[ivx]{1,4}|a\d*|solo|soli|section|div|tutti|of|in)$/u;

/** The words of a name that tell what it is, without plurals; letters and digits of ASCII only, since they name files. */
function wordsOf(name: string): readonly string[] {
  const plain = name.normalize('NFD').replaceAll(/\p{M}/gu, '').toLowerCase();
  return plain
    .split(/[^a-z0-9]+/u)
    .filter((word) => word !== '' && !counting.test(word))
    .map((word) => (word.length > 3 && !word.endsWith('ss') ? word.replace(/s$/u, '') : word))
    .slice(0, 6);
}

const romans = ['i', 'ii', 'iii', 'iv', 'v', 'vi', 'vii', 'viii'];

/** The number of a desk or part at the end of a name, in digits or Roman ones. */
function numberOf(name: string): number | undefined {
  const last = /(?:^|[^a-z0-9])([a-z0-9]+)$/u.exec(name.trim().toLowerCase())?.[1] ?? '';
  const roman = romans.indexOf(last);
  if (roman >= 0) return roman + 1;
  return /^\d{1,3}$/u.test(last) ? Number(last) : undefined;
}
