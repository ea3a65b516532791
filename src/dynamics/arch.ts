/**
 * How loud a phrase is along its length: a parabola up to its turn and another one down from it. Todd (1992), The
 * dynamics of dynamics, JASA 91, models the loudness of a phrase so; the phrase arch of Friberg, Bresin & Sundberg
 * (2006), Overview of the KTH rule system for musical performance, Advances in Cognitive Psychology 2, has the same form
 * with a turn of choice (both from memory).
 *
 * @param place 0 at the phrase's begin, 1 at its end
 * @param turn where it is loudest, between 0 and 1
 * @returns 0 at both ends, 1 at the turn
 */
export function archAt(place: number, turn: number): number {
  const within = Math.max(0, Math.min(1, place));
  const away = within < turn ? (turn - within) / turn : (within - turn) / (1 - turn);
  return 1 - away * away;
}

/** The turn is a phrase's highest note, but no nearer to the ends than this. Own choice, no source. */
export const turnRange = { from: 0.4, to: 0.75 } as const;

/** A turn within the range. */
export function turnAt(place: number): number {
  return Math.max(turnRange.from, Math.min(turnRange.to, place));
}
