import { exactVelocityOfLevel } from '../../dynamics/index.js';
import type { InstrumentKind } from '../instruments/index.js';
import { loudnessOf, measuredLoudness } from './strength.js';

/** A section that sounds at an onset. */
export interface Sounding {
  readonly name: string;
  readonly kind: InstrumentKind;
  readonly players: number;
  /** How loud it plays, on the scale of marks. */
  readonly level: number;
  readonly role: 'melody' | 'harmony' | 'bass' | 'percussion';
  /** How many players of strings are a whole department of its kind. */
  readonly department?: number;
  /** What the mix adds to it. Unit: dB. */
  readonly gain?: number;
  /** How loud its library was measured at mf; its strength is told from its kind, if absent. Unit: LUFS. */
  readonly referenceLevel?: number;
}

/** One section that is not heard for another. */
export interface Covered {
  readonly name: string;
  readonly by: string;
  /** How much louder the other is. Unit: dB. */
  readonly excess: number;
  /** What the other has to be changed by so as to cover no longer. Unit: dB, negative, to a tenth. */
  readonly suggested: number;
}

/** The balance of an onset: how loud each section is, in the order given, and what covers what. */
export interface OnsetBalance {
  /** LUFS where libraries were measured; else dB against one woodwind at velocity 127. */
  readonly loudness: readonly number[];
  readonly covered: readonly Covered[];
}

/**
 * How much louder a section may be without covering. A melody may not be weaker than what accompanies it; of two
 * accompanying sections one may be twice as strong as the other (10 · log10 2). Own choice, no source.
 */
export const tolerated = { overMelody: 0, overOthers: 10 * Math.log10(2) } as const;

/** Differences smaller than this are none. Unit: dB. */
const smallest = 0.05;

/**
 * What covers what at an onset. A melody covers nothing: it is meant to be heard. Of several sections that cover one,
 * the strongest is named. Linear in sections.
 */
export function balanceAt(sections: readonly Sounding[]): OnsetBalance {
  const loudness = sections.map(({ kind, players, level, gain = 0, department, referenceLevel }) => {
    const velocity = exactVelocityOfLevel(level);
    return referenceLevel === undefined
      ? loudnessOf(kind, players, level, velocity, department) + gain
      : measuredLoudness(referenceLevel, velocity) + gain;
  });
  let strongest = -1;
  sections.forEach(({ role }, index) => {
    if (role === 'melody') return;
    if (strongest < 0 || (loudness[index] ?? 0) > (loudness[strongest] ?? 0)) strongest = index;
  });
  const by = sections[strongest];
  if (!by) return { loudness, covered: [] };
  const covered = sections.flatMap(({ name, role }, index): Covered[] => {
    const excess = (loudness[strongest] ?? 0) - (loudness[index] ?? 0);
    const over = excess - (role === 'melody' ? tolerated.overMelody : tolerated.overOthers);
    return over < smallest ? [] : [{ name, by: by.name, excess, suggested: -Math.round(over * 10) / 10 }];
  });
  return { loudness, covered };
}
