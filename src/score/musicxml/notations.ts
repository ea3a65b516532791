import { ornaments } from '../names.js';
import { childrenOf, numberOf, type XmlElement } from '../xml/element.js';

/** What a note's notations say. */
export interface Notations {
  /** Elements of `articulations`, `technical` and `ornaments`, by their names. */
  readonly marks: readonly string[];
  readonly slurs: readonly { readonly type: string; readonly number: string; readonly element: XmlElement }[];
  readonly tiedTypes: readonly string[];
  readonly isArpeggiated: boolean;
  readonly tremolo: number;
}

/** Attributes that end or carry on a spanner, which so is not a mark of this note. */
const carriedOn: ReadonlySet<string | undefined> = new Set(['stop', 'continue']);

export function readNotations(note: XmlElement): Notations {
  const all = childrenOf(note, 'notations').flatMap(({ children }) => children);
  const groups = all.filter(({ name }) => ['articulations', 'technical', 'ornaments'].includes(name));
  const elements = groups.flatMap(({ children }) => children);
  const marks = elements.filter(isOwnMark).map(markName);
  const tremolo = elements.find(({ name }) => name === 'tremolo');
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
    isArpeggiated: all.some(({ name }) => name === 'arpeggiate'),
    tremolo: tremolo ? strokes(tremolo) : 0,
  };
}

/** A trill's wavy line goes over many notes, and is the mark of the first; a hammer-on of the note it starts from. */
function isOwnMark({ name, attributes }: XmlElement): boolean {
  return name === 'tremolo' || !carriedOn.has(attributes.get('type'));
}

/** Other marks are known by what they say, where they say it in a name of the three lists. */
function markName({ name, text }: XmlElement): string {
  if (name !== 'other-ornament') return name;
  const plain = text.trim().toLowerCase();
  return ornaments.includes(plain) ? plain : name;
}

/** Marks on the stem; 3 where the number is left out or wrong (MusicXML 4.0: 0–8). */
function strokes(tremolo: XmlElement): number {
  const marks = numberOf(tremolo.text);
  const isNumber = marks !== undefined && Number.isInteger(marks) && marks >= 0 && marks <= 8;
  return isNumber ? marks : 3;
}
