/** A key: pitch class of the tonic, and mode. */
export interface ReadKey {
  readonly tonic: number;
  readonly mode: 'major' | 'minor';
}

/** What a chord of an analysis is made of. */
export interface ReadChord {
  readonly root: number;
  /** Semitones of the third and the fifth above the root. */
  readonly third: number;
  readonly fifth: number;
  readonly seventh: boolean;
}

const numerals = ['i', 'ii', 'iii', 'iv', 'v', 'vi', 'vii'];
const scales = { major: [0, 2, 4, 5, 7, 9, 11], minor: [0, 2, 3, 5, 7, 8, 10] } as const;
const letterPitch: Readonly<Record<string, number>> = { c: 0, d: 2, e: 4, f: 5, g: 7, a: 9, b: 11 };

/** Augmented sixth chords and the like, which are named otherwise than by degrees: root above the tonic, and chord. */
const named: readonly (readonly [pattern: RegExp, above: number, chord: Omit<ReadChord, 'root'>])[] = [
  [/^N/u, 1, { third: 4, fifth: 7, seventh: false }],
  [/^Ger/u, 8, { third: 4, fifth: 7, seventh: true }],
  [/^It/u, 8, { third: 4, fifth: 7, seventh: true }],
  [/^Fr/u, 2, { third: 4, fifth: 6, seventh: true }],
  [/^Cad/u, 0, { third: 4, fifth: 7, seventh: false }],
];

/** A key of a RomanText file: "G" is G major, "b-" is B flat minor; null where it is none. */
export function keyOfText(text: string): ReadKey | null {
  const [, letter = '', signs = ''] = /^([A-Ga-g])([#b-]*)$/u.exec(text) ?? [];
  const step = letterPitch[letter.toLowerCase()];
  if (step === undefined) return null;
  const altered = alterationOf(signs);
  return { tonic: mod12(step + altered), mode: letter === letter.toLowerCase() ? 'minor' : 'major' };
}

/** A Roman numeral as RomanText has it, "V6/5/ii", "vii/o7", "bVI", in a key; null where it is none. */
export function chordOfNumeral(text: string, key: ReadKey): ReadChord | null {
  const parts = text.replaceAll('/o', 'ø').split(/\/(?=[#b]*[IViv])/u);
  let at = key;
  for (const applied of parts.slice(1).reverse()) {
    const degree = degreeOf(applied, at);
    if (!degree) return null;
    at = { tonic: degree.root, mode: degree.third === 3 ? 'minor' : 'major' };
  }
  return degreeOf(parts[0] ?? '', at);
}

function degreeOf(text: string, key: ReadKey): ReadChord | null {
  for (const [pattern, above, chord] of named)
    if (pattern.test(text)) {
      const third = text.startsWith('Cad') && key.mode === 'minor' ? 3 : chord.third;
      return { ...chord, third, root: mod12(key.tonic + above) };
    }
  const found = /^([#b]*)(VII|VI|V|IV|III|II|I|vii|vi|v|iv|iii|ii|i)([ø°o+%]?)(.*)$/u.exec(text);
  if (!found) return null;
  const [, signs = '', numeral = '', quality = '', figures = ''] = found;
  const minor = numeral === numeral.toLowerCase();
  const step = numerals.indexOf(numeral.toLowerCase());
  const diminished = quality !== '' && quality !== '+';
  return {
    root: mod12(key.tonic + rootAbove(step, minor, signs, key.mode) + alterationOf(signs)),
    third: minor ? 3 : 4,
    fifth: diminished ? 6 : quality === '+' ? 8 : 7,
    seventh: hasSeventh(figures) || quality === 'ø' || quality === '%',
  };
}

/** In minor, small numerals of the sixth and seventh degree stand on the raised degrees. */
function rootAbove(step: number, minor: boolean, signs: string, mode: ReadKey['mode']): number {
  const raised = mode === 'minor' && minor && step >= 5 && signs === '';
  return scales[raised ? 'major' : mode][step] ?? 0;
}

function hasSeventh(figures: string): boolean {
  return /^(maj)?(7|6\/?5|4\/?3|4?\/?2|9|11|13)/u.test(figures);
}

function alterationOf(signs: string): number {
  return [...signs].reduce((sum, sign) => sum + (sign === '#' ? 1 : -1), 0);
}

function mod12(value: number): number {
  return ((value % 12) + 12) % 12;
}
