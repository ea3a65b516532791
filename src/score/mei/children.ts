import type { XmlElement } from '../xml/element.js';

/** Editorial elements whose content stands as if they were not there (MEI 5, module edittrans). */
const transparent: ReadonlySet<string> = new Set([
  ...[
    'supplied',
    'unclear',
    'add',
    'corr',
    'reg',
    'expan',
    'damage',
    'handShift',
    'restore',
    'lem',
    'rdg',
    'app',
  ],
  ...['choice', 'subst', 'sic', 'orig', 'abbr'],
]);
const left: ReadonlySet<string> = new Set(['del', 'gap', 'ossia', 'oStaff']);

/** Of several readings the one that an edition prints: what was corrected, regularised, added; the lemma. */
const preferred: readonly string[] = ['lem', 'corr', 'reg', 'expan', 'add', 'rdg', 'sic', 'orig', 'abbr'];

/** The children of an element with editorial readings decided, and what was taken out left out. */
export function contentOf(element: XmlElement): readonly XmlElement[] {
  return element.children.flatMap((one) => decided(one));
}

function decided(one: XmlElement): readonly XmlElement[] {
  if (left.has(one.name)) return [];
  if (!transparent.has(one.name)) return [one];
  if (one.name === 'app' || one.name === 'choice' || one.name === 'subst') {
    const chosen = preferred.flatMap((name) => one.children.filter((child) => child.name === name))[0];
    return chosen ? contentOf(chosen) : [];
  }
  return contentOf(one);
}
