/** Quarters of a `type` or `beat-unit` (MusicXML 4.0, note-type-value). */
const quarters: ReadonlyMap<string, number> = new Map([
  ['maxima', 32],
  ['long', 16],
  ['breve', 8],
  ['whole', 4],
  ['half', 2],
  ['quarter', 1],
  ['eighth', 1 / 2],
  ['16th', 1 / 4],
  ['32nd', 1 / 8],
  ['64th', 1 / 16],
  ['128th', 1 / 32],
  ['256th', 1 / 64],
  ['512th', 1 / 128],
  ['1024th', 1 / 256],
]);

/** The length of a printed note in quarters; undefined for an unknown type. */
export function writtenQuarters(type: string | undefined, dots: number): number | undefined {
  const plain = quarters.get(type ?? '');
  return plain === undefined ? undefined : plain * (2 - 2 ** -dots);
}
