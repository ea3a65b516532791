import { programOfName } from '../instrument.js';
import type { HearPart } from '../types.js';

/** The sound that a part has where nothing else is asked for. */
export interface PlainSound {
  /** General MIDI program on the wire; a kit's number where it is a kit. */
  readonly program: number;
  readonly isKit: boolean;
}

/** String Ensemble 1: bowed strings in numbers (RP-003, table 2). */
const stringEnsemble = 48;

/** What a family sounds like where nothing tells the instrument (RP-003, table 2; the choice is our own). */
const ofFamily: Readonly<Record<string, number>> = {
  strings: stringEnsemble,
  woodwind: 71,
  brass: 61,
  keyboard: 0,
  plucked: 46,
  voice: 52,
  other: stringEnsemble,
};

/** Solo bowed strings, which sound as the ensemble where more than one plays. */
const soloStrings: ReadonlySet<number> = new Set([40, 41, 42, 43]);

/**
 * A part's plain sound: the program that the music or the map names, else what its name tells, else its family's. A
 * string part is a section unless one player is named.
 */
export function plainSound({
  name,
  family = 'other',
  program,
  isKit,
  players,
}: Pick<HearPart, 'name' | 'family' | 'program' | 'isKit' | 'players'>): PlainSound {
  if (program !== undefined) return { program, isKit: isKit ?? false };
  if (isKit) return { program: 0, isKit: true };
  const named = programOfName(name);
  if (named === undefined && family === 'percussion') return { program: 0, isKit: true };
  const found = named ?? ofFamily[family] ?? stringEnsemble;
  return { program: soloStrings.has(found) && players !== 1 ? stringEnsemble : found, isKit: false };
}
