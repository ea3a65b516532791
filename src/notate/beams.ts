import { beamSpans, type Division } from './division.js';
import type { Measure } from './measures.js';
import type { Layer, Piece } from './written.js';

/** Values from the eighth on have flags or beams. */
function isBeamable({ value, event }: Piece): boolean {
  return event !== undefined && !['breve', '1', '2', '4'].includes(value.dur);
}

/**
 * Which pieces stand under one beam, by a number for each beam: those of one beat, from eighths on; a rest between
 * them is bridged, a tuplet's edge ends a beam that does not hold the tuplet.
 */
export function beamsOf(layer: Layer, measure: Measure, division: Division): ReadonlyMap<Piece, number> {
  const beams = new Map<Piece, number>();
  const spans = beamSpans(division);
  let span = 0;
  let open: Piece[] = [];
  const close = () => {
    while (open.length > 0 && open.at(-1)?.event === undefined) open.pop();
    for (const piece of open.length > 1 ? open : []) beams.set(piece, open[0]?.start ?? 0);
    open = [];
  };
  for (const piece of layer) {
    const at = piece.start - measure.start;
    if (at >= (spans[span]?.end ?? 0)) {
      close();
      while (at >= (spans[span]?.end ?? Number.POSITIVE_INFINITY)) span += 1;
    }
    if (open.length > 0 && open.at(-1)?.tuplet !== piece.tuplet) close();
    const bridges =
      open.length > 0 && piece.event === undefined && !piece.isSpace && Number(piece.value.dur) >= 8;
    if (isBeamable(piece) || bridges) open.push(piece);
    else close();
  }
  close();
  return beams;
}
