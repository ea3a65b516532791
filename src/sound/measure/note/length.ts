import type { Envelope } from './onset.js';

/** How long a note sounds. */
export interface Length {
  /** From its note-on until it has fallen for good to 20 dB below its loudest. Unit: ms. */
  readonly ms: number;
  /** Whether it dies away so slowly that a room or a release is heard rather than the note. */
  readonly rings: boolean;
}

/** Unit: dB. */
const ended = { half: -10, whole: -20 } as const;
/** A fall from −10 to −20 dB that takes longer rings. Unit: ms. */
const longestFall = 150;

/** The length of a note; undefined where it does not fall so far before the sound that was measured ends. */
export function lengthOf({ levels, step, noteOn, loudest, before }: Envelope): Length | undefined {
  if (loudest + ended.whole < before + 3) return undefined;
  const lastAbove = (level: number) => {
    for (let index = levels.length - 1; index >= 0; index--) if ((levels[index] ?? 0) >= level) return index;
    return 0;
  };
  const end = lastAbove(loudest + ended.whole);
  if (end >= levels.length - 1) return undefined;
  const fall = (end - lastAbove(loudest + ended.half)) * step * 1000;
  return { ms: ((end + 0.5) * step - noteOn) * 1000, rings: fall > longestFall };
}
