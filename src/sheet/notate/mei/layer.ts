import type { Head } from '../accidentals.js';
import type { Beam } from '../beams.js';
import { type Clef, percussionLocation } from '../clef.js';
import type { Layer, Piece, Tuplet } from '../written.js';
import { type Attributes, element } from './xml.js';

/** What a layer's text is made from. */
export interface LayerText {
  readonly heads: ReadonlyMap<Piece, readonly Head[]>;
  readonly beams: ReadonlyMap<Piece, Beam>;
  readonly clef: Clef;
  readonly restId: (piece: Piece) => string;
}

/** A layer in MEI: beams around the tuplets that they hold, otherwise tuplets around their beams. */
export function layerText(layer: Layer, about: LayerText): string {
  const beamOf = (piece: Piece) => about.beams.get(piece);
  const holding = (piece: Piece) => (beamOf(piece)?.holdsTuplets ? beamOf(piece) : undefined);
  const inTuplets = (pieces: readonly Piece[], inside: (pieces: readonly Piece[]) => string) =>
    runs(
      pieces,
      ({ tuplet }) => tuplet,
      (tuplet, run) => tupletText(tuplet, inside(run)),
    );
  const values = (pieces: readonly Piece[]) => pieces.map((piece) => pieceText(piece, about)).join('');
  const beamed = (pieces: readonly Piece[]) =>
    runs(pieces, beamOf, (beam, run) => (beam ? element('beam', {}, values(run)) : values(run)));
  return runs(layer, holding, (beam, run) =>
    beam ? element('beam', {}, inTuplets(run, values)) : inTuplets(run, beamed),
  );
}

/** The texts of neighbours that have a key in common. */
function runs<K>(
  pieces: readonly Piece[],
  keyOf: (piece: Piece) => K,
  textOf: (key: K, run: readonly Piece[]) => string,
): string {
  const found: { key: K; run: Piece[] }[] = [];
  for (const piece of pieces) {
    const key = keyOf(piece);
    const open = found.at(-1);
    if (open && open.key === key) open.run.push(piece);
    else found.push({ key, run: [piece] });
  }
  return found.map(({ key, run }) => textOf(key, run)).join('');
}

function tupletText(tuplet: Tuplet | undefined, inside: string): string {
  return tuplet ? element('tuplet', { num: tuplet.num, numbase: tuplet.numbase }, inside) : inside;
}

function pieceText(piece: Piece, about: LayerText): string {
  const { value, event, isSpace } = piece;
  const length = { dur: value.dur, dots: value.dots || undefined };
  if (!event)
    return isSpace ? element('space', length) : element('rest', { 'xml:id': about.restId(piece), ...length });
  const heads = about.heads.get(piece) ?? [];
  const [only] = heads;
  if (heads.length === 1 && only) return headText(only, about.clef, length);
  return element('chord', length, heads.map((head) => headText(head, about.clef, {})).join(''));
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

function headText({ id, spelling, showsAccidental }: Head, clef: Clef, length: Attributes): string {
  const { step, octave, alter } = spelling;
  return element('note', {
    'xml:id': id,
    pname: step,
    oct: octave,
    ...length,
    accid: showsAccidental ? shown.get(alter) : undefined,
    'accid.ges': showsAccidental ? undefined : sounding.get(alter),
    loc: clef.shape === 'perc' ? percussionLocation(spelling, clef) : undefined,
  });
}
