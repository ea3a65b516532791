import { figureOf, openSound } from '../figures.js';
import type { Figure, FigureSound } from '../model.js';
import { inflected, type Neighbours, neighboursOf } from '../neighbours.js';
import type { XmlElement } from '../xml/element.js';
import type { DraftNote, MeiState } from './state.js';
import { alterOf } from './values.js';

interface Sign {
  readonly name: string;
  readonly start?: FigureSound['start'];
}

/** Signs of the `ornam` attribute (MEI 5, data.ORNAM.cmn: read); those that are not here are no figure. */
const signs: ReadonlyMap<string, Sign> = new Map<string, Sign>([
  ['k', { name: 'delayed-turn' }],
  ['K', { name: 'turn', start: 'main' }],
  ['m', { name: 'mordent' }],
  ['M', { name: 'inverted-mordent' }],
  ['S', { name: 'turn' }],
  ['s', { name: 'inverted-turn' }],
  ['t', { name: 'trill-mark', start: 'upper' }],
  ['T', { name: 'trill-mark', start: 'main' }],
  ['I', { name: 'schleifer' }],
]);

/** The sign of an attribute: of several letters the trill or mordent among them. */
function signOf(text: string): Sign {
  const main = /[TtMm]/u.exec(text)?.[0] ?? text.slice(0, 1);
  return signs.get(main) ?? { name: 'other-ornament' };
}

/** Puts the ornaments of an `ornam` attribute to a note. */
export function attributeOrnaments(text: string | undefined, note: DraftNote, state: MeiState): void {
  for (const one of (text ?? '').split(/\s+/u)) {
    if (one === '') continue;
    const { name, start = null } = signOf(one);
    putOrnament(name, note, state, { sound: { ...openSound, start } });
  }
}

/** Ornaments by their elements; `form` chooses between upper and lower (MEI 5, mordent, turn, trill, ornam). */
export function ornamentName({ name, attributes, text }: XmlElement): string | undefined {
  const form = attributes.get('form');
  if (name === 'trill') return 'trill-mark';
  if (name === 'mordent') return form === 'upper' ? 'inverted-mordent' : 'mordent';
  if (name === 'turn') {
    const turn = form === 'lower' ? 'inverted-turn' : 'turn';
    return attributes.get('delayed') === 'true' ? `delayed-${turn}` : turn;
  }
  if (name !== 'ornam') return undefined;
  const plain = text.trim().toLowerCase();
  return figureOf(plain, plainNeighbours) ? plain : 'other-ornament';
}

const plainNeighbours = neighboursOf(undefined, () => 0);

/** Puts an ornament's element to a note. */
export function elementOrnament(element: XmlElement, name: string, note: DraftNote, state: MeiState): void {
  const { attributes } = element;
  const upper = alterOf(attributes.get('accidupper'));
  const lower = alterOf(attributes.get('accidlower'));
  putOrnament(name, note, state, { upper, lower, isLong: attributes.get('long') === 'true' });
}

interface Details {
  readonly sound?: FigureSound;
  /** Accidentals of the notes above and below. */
  readonly upper?: number | undefined;
  readonly lower?: number | undefined;
  readonly isLong?: boolean;
  readonly hasLine?: boolean;
}

export function putOrnament(name: string, note: DraftNote, state: MeiState, details: Details = {}): void {
  const figure = figureOf(name, distancesOf(note, state, details), details.sound, details.isLong);
  note.marks = [...new Set([...note.marks, name])];
  if (!figure || note.ornaments.some((one) => one.marks.includes(name))) return;
  const made: Figure = { ...figure, hasLine: details.hasLine ?? false };
  note.ornaments = [...note.ornaments, made];
}

function distancesOf(note: DraftNote, state: MeiState, { upper, lower }: Details): Neighbours {
  const { spelled, neighbours } = state.around.get(note) ?? {
    spelled: undefined,
    neighbours: plainNeighbours,
  };
  return inflected(neighbours, spelled, upper, lower);
}
