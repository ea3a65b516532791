import type { Roll } from '../model.js';
import { ornaments } from '../names.js';
import { childrenOf, type XmlElement } from '../xml/element.js';

/** What a note's notations say. */
export interface Notations {
  /** Elements of `articulations`, `technical` and `ornaments`, by their names. */
  readonly marks: readonly string[];
  readonly slurs: readonly { readonly type: string; readonly number: string; readonly element: XmlElement }[];
  readonly tiedTypes: readonly string[];
  readonly glides: readonly Glide[];
  readonly roll: Roll | null;
}

/** The beginning or end of a glissando or slide. */
export interface Glide {
  readonly name: 'glissando' | 'slide';
  readonly type: string;
  readonly number: string;
  readonly element: XmlElement;
}

/** Attributes that end or carry on a spanner, which so is not a mark of this note. */
const carriedOn: ReadonlySet<string | undefined> = new Set(['stop', 'continue']);

export function readNotations(note: XmlElement): Notations {
  const all = childrenOf(note, 'notations').flatMap(({ children }) => children);
  const groups = all.filter(({ name }) => ['articulations', 'technical', 'ornaments'].includes(name));
  const elements = groups.flatMap(({ children }) => children);
  const marks = elements.filter(isOwnMark).map(markName);
  return {
    marks: [...new Set(marks)],
    slurs: all
      .filter(({ name }) => name === 'slur')
      .map((element) => ({
        type: element.attributes.get('type') ?? '',
        number: element.attributes.get('number') ?? '1',
        element,
      })),
    tiedTypes: all
      .filter(({ name }) => name === 'tied')
      .map(({ attributes }) => attributes.get('type') ?? ''),
    glides: all.flatMap(glideOf),
    roll: rollOf(all.find(({ name }) => name === 'arpeggiate')),
  };
}

function glideOf(element: XmlElement): readonly Glide[] {
  const { name, attributes } = element;
  if (name !== 'glissando' && name !== 'slide') return [];
  const number = attributes.get('number') ?? '1';
  return [{ name, type: attributes.get('type') ?? '', number, element }];
}

/** Chords of one number are rolled together (MusicXML 4.0, arpeggiate). */
function rollOf(element: XmlElement | undefined): Roll | null {
  if (!element) return null;
  const direction = element.attributes.get('direction') === 'down' ? 'down' : 'up';
  return { name: element.attributes.get('number') ?? '', direction };
}

/** A trill's wavy line goes over many notes, and is the mark of the first; a hammer-on of the note it starts from. */
function isOwnMark({ name, attributes }: XmlElement): boolean {
  if (name === 'accidental-mark') return false;
  return name === 'tremolo' || !carriedOn.has(attributes.get('type'));
}

/** Other marks are known by what they say, where they say it in a name of the three lists. */
function markName({ name, text }: XmlElement): string {
  if (name !== 'other-ornament') return name;
  const plain = text.trim().toLowerCase();
  return ornaments.includes(plain) ? plain : name;
}
