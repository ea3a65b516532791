import type { Beam, Layer, Piece } from './written.js';

/** How many beams or flags a value has. */
function flags({ value: { dur } }: Piece): number {
  const number = Number(dur);
  return Number.isFinite(number) ? Math.max(0, Math.log2(number) - 2) : 0;
}

/** MusicXML counts beams up to this. */
const mostBeams = 8;

/** The `beam` elements of each note under a beam: every level begins, goes on, ends, or is a hook. */
export function beamTexts(layer: Layer, beams: ReadonlyMap<Piece, Beam>): ReadonlyMap<Piece, string> {
  const groups = new Map<Beam, Piece[]>();
  for (const piece of layer) {
    const beam = beams.get(piece);
    if (!beam || !piece.event) continue;
    const group = groups.get(beam);
    if (group) group.push(piece);
    else groups.set(beam, [piece]);
  }
  const texts = new Map<Piece, string>();
  for (const group of groups.values())
    group.forEach((piece, index) => {
      const count = Math.min(mostBeams, flags(piece));
      const levels = Array.from({ length: count }, (_, at) => at + 1);
      texts.set(piece, levels.map((level) => beamText(group, index, level)).join(''));
    });
  return texts;
}

function beamText(group: readonly Piece[], index: number, level: number): string {
  const has = (at: number) => {
    const piece = group[at];
    return piece !== undefined && flags(piece) >= level;
  };
  return `<beam number="${level}">${kindOf(has(index - 1), has(index + 1), index === 0)}</beam>`;
}

function kindOf(before: boolean, after: boolean, isFirst: boolean): string {
  if (before) return after ? 'continue' : 'end';
  if (after) return 'begin';
  return isFirst ? 'forward hook' : 'backward hook';
}
