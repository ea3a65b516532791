/**
 * Names on the line of fifths, … B♭ −2, F −1, C 0, G 1, D 2 …, on which each spelling has one place: a sharp is 7
 * further up, a flat 7 further down. On it all spelling is adding.
 */

/** The note's name: −3 is "E♭", 6 "F♯". */
export function nameOfFifths(place: number): string {
  return `${'FCGDAEB'.charAt(mod(place + 1, 7))}${accidentals(place)}`;
}

/** The degree of the major scale on the same line, counted from its tonic: 0 is 1, 1 is 5, −3 is 3 with −1 alteration. */
export function degreeOfFifths(place: number): { readonly degree: number; readonly alteration: number } {
  return { degree: [4, 1, 5, 2, 6, 3, 7][mod(place + 1, 7)] ?? 1, alteration: Math.floor((place + 1) / 7) };
}

/** "♯" or "♭" as often as a degree is raised (above 0) or lowered. */
export function signs(alteration: number): string {
  return (alteration < 0 ? '♭' : '♯').repeat(Math.abs(alteration));
}

/** Pitch class of a place. */
export function classOfFifths(place: number): number {
  return mod(place * 7, 12);
}

/** The same pitch with one sign at most: B𝄫 is read as A. */
export function plainly(place: number): number {
  if (place > 12) return plainly(place - 12);
  return place < -8 ? plainly(place + 12) : place;
}

export function mod(value: number, by: number): number {
  return ((value % by) + by) % by;
}

function accidentals(place: number): string {
  return signs(Math.floor((place + 1) / 7));
}
