/**
 * How much louder a section is than one of its players. Players are incoherent sources, whose powers add: 10 · log10 n
 * (acoustics, common knowledge).
 *
 * @param players 1 or more
 * @returns dB
 * @throws RangeError for fewer than one
 */
export function sectionGain(players: number): number {
  if (!(players >= 1)) throw new RangeError(`a section of ${players} players`);
  return 10 * Math.log10(players);
}

/**
 * By how much a recording of a section has to be turned up or down to sound like another number of players: a divided
 * section, say, recorded whole.
 *
 * @returns dB
 */
export function playersOffset(wanted: number, recorded: number): number {
  return sectionGain(wanted) - sectionGain(recorded);
}

/** The level of several incoherent sources together: their powers added. −Infinity where there are none. Unit: dB. */
export function together(levels: readonly number[]): number {
  return 10 * Math.log10(levels.reduce((power, level) => power + 10 ** (level / 10), 0));
}
