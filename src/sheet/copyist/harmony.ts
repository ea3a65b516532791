import { element, xmlText } from './written.js';

/** MusicXML's `kind-value` for symbols behind the root, as this project writes them; others are `other` with their text. */
const kinds: ReadonlyMap<string, string> = new Map([
  ['', 'major'],
  ['m', 'minor'],
  ['dim', 'diminished'],
  ['aug', 'augmented'],
  ['7', 'dominant'],
  ['m7', 'minor-seventh'],
  ['maj7', 'major-seventh'],
  ['m7♭5', 'half-diminished'],
  ['dim7', 'diminished-seventh'],
  ['m(maj7)', 'major-minor'],
  ['7♯5', 'augmented-seventh'],
  ['6', 'major-sixth'],
  ['m6', 'minor-sixth'],
  ['5', 'power'],
  ['sus4', 'suspended-fourth'],
  ['sus2', 'suspended-second'],
  ['9', 'dominant-ninth'],
  ['maj9', 'major-ninth'],
  ['m9', 'minor-ninth'],
  ['11', 'dominant-11th'],
  ['m11', 'minor-11th'],
  ['13', 'dominant-13th'],
]);

const symbol = /^([A-G])([♯♭𝄪𝄫#b]*)([^/]*?)(?:\/([A-G])([♯♭#b]*))?(?: \([^)]*\))?$/u;

const alterations: Readonly<Record<string, number>> = { '♯': 1, '#': 1, '♭': -1, b: -1, '𝄪': 2, '𝄫': -2 };

/**
 * A chord's name as MusicXML's `harmony`; words where it is no chord symbol.
 *
 * @param offset in divisions, from where it stands in the bar
 */
export function harmonyText(name: string, offset: number): string {
  const moved = offset === 0 ? '' : element('offset', {}, String(offset));
  const found = symbol.exec(name);
  if (!found?.[1]) {
    const text = xmlText(name);
    if (text.trim() === '') return '';
    const words = element('direction-type', {}, element('words', {}, text));
    return element('direction', { placement: 'above' }, words + moved);
  }
  const [, step, altered = '', text = '', bass, bassAltered = ''] = found;
  const root = element('root', {}, note('root', step, altered));
  const kind = element('kind', { text: text === '' ? undefined : text }, kinds.get(text) ?? 'other');
  const under = bass === undefined ? '' : element('bass', {}, note('bass', bass, bassAltered));
  return element('harmony', { placement: 'above' }, root + kind + under + moved);
}

function note(of: 'root' | 'bass', step: string, altered: string): string {
  const alter = [...altered].reduce((sum, sign) => sum + (alterations[sign] ?? 0), 0);
  const sounding = alter === 0 ? '' : element(`${of}-alter`, {}, String(alter));
  return element(`${of}-step`, {}, step) + sounding;
}
