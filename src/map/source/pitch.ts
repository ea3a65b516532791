const semitones: ReadonlyMap<string, number> = new Map([
  ['C', 0],
  ['D', 2],
  ['E', 4],
  ['F', 5],
  ['G', 7],
  ['A', 9],
  ['B', 11],
]);

/**
 * The MIDI note of a pitch as a library's manual spells it, or the MIDI note itself; undefined where it is none from
 * 0 to 127.
 *
 * @param middleC the octave that the manual prints for MIDI note 60
 */
export function parsePitch(text: string | number, middleC: 3 | 4 | 5): number | undefined {
  if (typeof text === 'number') return Number.isInteger(text) && text >= 0 && text <= 127 ? text : undefined;
  const [, letter = '', accidental = '', octave] = /^([A-Ga-g])([#b]?)(-?\d{1,2})$/u.exec(text) ?? [];
  const step = semitones.get(letter.toUpperCase());
  if (step === undefined || octave === undefined) return undefined;
  const shift = accidental === '#' ? 1 : accidental === 'b' ? -1 : 0;
  const note = (Number(octave) - middleC + 5) * 12 + step + shift;
  return note >= 0 && note <= 127 ? note : undefined;
}
