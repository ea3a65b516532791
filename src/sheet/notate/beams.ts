import { beamSpans, type Division } from './division.js';
import type { Measure } from './measures.js';
import type { Layer, Piece, Tuplet } from './written.js';

/** A beam. */
export interface Beam {
  /** It begins or ends outside a tuplet, and so holds its tuplets whole. */
  readonly holdsTuplets: boolean;
}

/** Values from the eighth on have flags or beams. */
function isShort({ value }: Piece): boolean {
  return !['breve', '1', '2', '4'].includes(value.dur);
}

/**
 * Which pieces stand under one beam: those of one beat, from eighths on; a rest between them is bridged. A tuplet is
 * held whole or not at all. (Common practice, no source.)
 */
export function beamsOf(layer: Layer, measure: Measure, division: Division): ReadonlyMap<Piece, Beam> {
  const beams = new Map<Piece, Beam>();
  const whole = beamedTuplets(layer);
  const mayHold = ({ tuplet }: Piece) => !tuplet || whole.has(tuplet);
  for (const beat of byBeat(layer, measure, division)) {
    let open: Piece[] = [];
    for (const piece of beat) {
      const last = open.at(-1);
      if (last && last.tuplet !== piece.tuplet && !(mayHold(last) && mayHold(piece))) {
        close(open, beams);
        open = [];
      }
      if (isShort(piece) && (piece.event || (open.length > 0 && !piece.isSpace))) open.push(piece);
      else {
        close(open, beams);
        open = [];
      }
    }
    close(open, beams);
  }
  return beams;
}

function close(open: readonly Piece[], beams: Map<Piece, Beam>): void {
  const notes = open.slice(0, open.findLastIndex(({ event }) => event) + 1);
  if (notes.length < 2) return;
  const beam = { holdsTuplets: notes.some(({ tuplet }) => tuplet !== notes[0]?.tuplet) };
  for (const piece of notes) beams.set(piece, beam);
}

/** Tuplets that one beam can hold: no long values, no rests at their edges. */
function beamedTuplets(layer: Layer): ReadonlySet<Tuplet> {
  const whole = new Set<Tuplet>();
  for (const { tuplet } of layer) if (tuplet) whole.add(tuplet);
  for (const piece of layer) {
    const { tuplet } = piece;
    if (!tuplet) continue;
    const isEdge = piece.start === tuplet.start || piece.end === tuplet.end;
    if (!isShort(piece) || (isEdge && !piece.event)) whole.delete(tuplet);
  }
  return whole;
}

function byBeat(layer: Layer, measure: Measure, division: Division): readonly (readonly Piece[])[] {
  const spans = beamSpans(division);
  const beats: Piece[][] = [];
  let span = -1;
  for (const piece of layer) {
    const at = piece.start - measure.start;
    const before = span;
    while (at >= (spans[span]?.end ?? 0) && span < spans.length) span += 1;
    if (span !== before) beats.push([]);
    beats.at(-1)?.push(piece);
  }
  return beats;
}
