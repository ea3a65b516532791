import { type Spelling, signatureAlter, spell } from './spelling.js';
import { headId, type Piece, type StaffBar } from './written.js';

/** A head: a note's pitch as it is written, and whether its accidental is. */
export interface Head {
  readonly id: string;
  readonly spelling: Spelling;
  readonly showsAccidental: boolean;
}

/**
 * The heads of a staff's bar, by piece, low notes first. An accidental holds for its line or space and octave up to
 * the bar line, and is written where it changes what holds; a tie carries it over the bar line (common practice, no
 * source).
 */
export function headsOf(bar: StaffBar, fifths: number): ReadonlyMap<Piece, readonly Head[]> {
  const inForce = new Map<string, number>();
  const heads = new Map<Piece, readonly Head[]>();
  const pieces = bar.flat().filter(({ event }) => event !== undefined);
  for (const piece of pieces.sort((a, b) => a.start - b.start)) {
    const notes = [...(piece.event?.notes ?? [])].sort((a, b) => a.pitch - b.pitch);
    heads.set(
      piece,
      notes.map(({ id, pitch, fifths: named }) => {
        const spelling = spell(pitch, fifths, named);
        const line = `${spelling.step}${spelling.octave}`;
        const known = inForce.get(line) ?? signatureAlter(spelling.step, fifths);
        const showsAccidental = piece.nth === 0 && known !== spelling.alter;
        if (showsAccidental) inForce.set(line, spelling.alter);
        return { id: headId(id, piece.nth), spelling, showsAccidental };
      }),
    );
  }
  return heads;
}
