import { ChordType, Interval } from 'tonal';

/** A kind of chord: what it is made of, how it is written, how readily it is thought of. */
export interface Kind {
  /** Behind the root's name: "m7♭5". */
  readonly symbol: string;
  /** Semitones above the root in the order of the formula, 1 3 5 7 9: ninths are 13–15. */
  readonly tones: readonly number[];
  /** The same tones on the line of fifths, counted from the root: 1 is a fifth, −3 a minor third. */
  readonly fifths: readonly number[];
  /** Pitch classes above the root, rising, 0 first. */
  readonly intervals: readonly number[];
  /** Fourths upon fourths; named so only where they are voiced so. */
  readonly quartal: boolean;
  /** How much better than the plain triad it must explain what sounds, in tones. */
  readonly cost: number;
}

const quartal = ' quartal';

/**
 * Kinds in common use: the symbol as it is written above a staff, the name of tonal (npm, MIT) for it or its
 * intervals, and its cost. Costs are our own, set like those of the templates: sevenths are common, the others must be
 * there in full. Sevenths on tones that pass by cost the more the rarer they are.
 */
const common: readonly (readonly [symbol: string, formula: string, cost: number])[] = [
  ['', 'M', 0],
  ['m', 'm', 0],
  ['dim', 'dim', 0.45],
  ['aug', 'aug', 0.6],
  ['7', '7', 0.6],
  ['m7', 'm7', 1],
  ['maj7', 'maj7', 1.1],
  ['m7♭5', 'm7b5', 1],
  ['dim7', 'dim7', 0.8],
  ['m(maj7)', 'mM7', 1.3],
  ['6', '6', 0.9],
  ['m6', 'm6', 0.9],
  ['5', '5', 0.2],
  ['sus4', 'sus4', 0.9],
  ['sus2', 'sus2', 0.9],
  ['7sus4', '7sus4', 1],
  ['add9', 'add9', 1.3],
  ['m(add9)', 'madd9', 1.3],
  ['add4', '1P 3M 4P 5P', 1.6],
  ['m(add4)', 'madd4', 1.6],
  ['9', '9', 1.3],
  ['maj9', 'maj9', 1.7],
  ['m9', 'm9', 1.6],
  ['6/9', '6/9', 1.6],
  ['m6/9', 'm69', 1.7],
  ['9sus4', '9sus4', 1.5],
  ['11', '11', 1.8],
  ['m11', 'm11', 1.8],
  ['13', '13', 1.8],
  ['7♭9', '7b9', 1.2],
  ['7♯9', '7#9', 1.6],
  ['7♯5', '7#5', 1.3],
  ['7♭5', '7b5', 1.4],
  ['7♯11', '7#11', 1.7],
  ['maj7♯11', 'maj7#11', 1.8],
  ['maj7♯5', 'maj7#5', 1.6],
  [quartal, '1P 4P 7m', 0.95],
  [quartal, '1P 4P 7m 10m', 1.2],
  [quartal, '1P 4P 7m 10m 13m', 1.5],
];

/** What a kind costs that has a name in tonal's dictionary but none above. */
const rareCost = 3;

/** All kinds of chord that have a name: those in common use, then the rest of tonal's dictionary. */
const byIntervals = allKinds();
export const kinds: readonly Kind[] = [...byIntervals.values()];

/** The kind with just these pitch classes above the root (rising, 0 first); undefined where it has no name. */
export function kindWith(intervals: readonly number[]): Kind | undefined {
  return byIntervals.get(intervals.join());
}

function allKinds(): ReadonlyMap<string, Kind> {
  const known = new Map<string, Kind>();
  for (const [symbol, formula, cost] of common) {
    const intervals = formula.includes('P') ? formula.split(' ') : ChordType.get(formula).intervals;
    const kind = kindOf(symbol, intervals, cost);
    known.set(kind.intervals.join(), kind);
  }
  for (const { aliases, intervals } of ChordType.all()) {
    const kind = kindOf(shortSymbol(aliases[0] ?? ''), intervals, rareCost);
    const set = kind.intervals.join();
    if (!known.has(set)) known.set(set, kind);
  }
  return known;
}

function kindOf(symbol: string, intervals: readonly string[], cost: number): Kind {
  const read = intervals.map((name) => Interval.get(name));
  const tones = read.map(({ semitones }) => semitones);
  const rising = [...new Set(tones.map((tone) => tone % 12))].sort((a, b) => a - b);
  return {
    symbol,
    tones,
    fifths: read.map(onFifths),
    intervals: rising,
    quartal: symbol === quartal,
    cost,
  };
}

/** The place of an interval on the line of fifths: those of the major scale, and 7 for each raising. */
function onFifths({ step, alt }: { readonly step: number; readonly alt: number }): number {
  return ([0, 2, 4, -1, 1, 3, 5][step] ?? 0) + 7 * alt;
}

/** tonal's symbol in the style of the others: "M7#5sus4" is "maj7♯5sus4", "mMaj7b6" is "m(maj7)♭6". */
function shortSymbol(alias: string): string {
  return alias
    .replace(/^m(?:Maj|M)(\d+)/u, 'm(maj$1)')
    .replace(/^oM/u, 'dim(maj')
    .replace(/^(dim\(maj\d)/u, '$1)')
    .replace(/^M(?=\d)/u, 'maj')
    .replace(/^M(?=add|b)/u, '')
    .replaceAll('#', '♯')
    .replaceAll(/b(?=\d)/gu, '♭');
}
