import type { Head } from '../accidentals.js';
import { trebleLocation } from '../clef.js';
import type { Layer, Piece, Tuplet } from '../written.js';
import { element } from './xml.js';

/** What a layer's text is made from. */
export interface LayerText {
  readonly heads: ReadonlyMap<Piece, readonly Head[]>;
  readonly beams: ReadonlyMap<Piece, number>;
  readonly isPercussion: boolean;
  readonly restId: (piece: Piece) => string;
}

/** A layer in MEI: tuplets around beams where a beam lies within one, otherwise beams around tuplets. */
export function layerText(layer: Layer, about: LayerText): string {
  return runs(layer, ({ tuplet }) => outerTuplet(layer, tuplet, about))
    .map(({ key, pieces }) => {
      const inside = beamed(pieces, about);
      return key ? tupletText(key, inside) : inside;
    })
    .join('');
}

/** A tuplet, unless it lies within a beam. */
function outerTuplet(_layer: Layer, tuplet: Tuplet | undefined, _about: LayerText): Tuplet | undefined {
  return tuplet;
}

function beamed(pieces: readonly Piece[], about: LayerText): string {
  return runs(pieces, (piece) => about.beams.get(piece))
    .map(({ key, pieces: run }) => {
      const inside = run.map((piece) => pieceText(piece, about)).join('');
      return key === undefined || run.length < 2 ? inside : element('beam', {}, inside);
    })
    .join('');
}

function tupletText({ num, numbase }: Tuplet, inside: string): string {
  return element('tuplet', { num, numbase }, inside);
}

/** Neighbours of one key, together. */
function runs<T, K>(
  items: readonly T[],
  keyOf: (item: T) => K,
): readonly { readonly key: K; readonly pieces: readonly T[] }[] {
  const found: { key: K; pieces: T[] }[] = [];
  for (const item of items) {
    const key = keyOf(item);
    const open = found.at(-1);
    if (open && open.key === key) open.pieces.push(item);
    else found.push({ key, pieces: [item] });
  }
  return found;
}

function pieceText(piece: Piece, about: LayerText): string {
  const { value, event, isSpace } = piece;
  const length = { dur: value.dur, dots: value.dots || undefined };
  if (!event)
    return isSpace ? element('space', length) : element('rest', { 'xml:id': about.restId(piece), ...length });
  const heads = about.heads.get(piece) ?? [];
  const [only] = heads;
  if (heads.length === 1 && only) return headText(only, about.isPercussion, length);
  return element('chord', length, heads.map((head) => headText(head, about.isPercussion, {})).join(''));
}

const shown: ReadonlyMap<number, string> = new Map([
  [-2, 'ff'],
  [-1, 'f'],
  [0, 'n'],
  [1, 's'],
  [2, 'x'],
]);
const sounding: ReadonlyMap<number, string> = new Map([
  [-2, 'ff'],
  [-1, 'f'],
  [1, 's'],
  [2, 'ss'],
]);

function headText(
  { id, spelling, showsAccidental }: Head,
  isPercussion: boolean,
  length: Readonly<Record<string, string | number | undefined>>,
): string {
  const { step, octave, alter } = spelling;
  return element('note', {
    'xml:id': id,
    pname: step,
    oct: octave,
    ...length,
    accid: showsAccidental ? shown.get(alter) : undefined,
    'accid.ges': showsAccidental ? undefined : sounding.get(alter),
    loc: isPercussion ? trebleLocation(step, octave) : undefined,
  });
}
