import { mod } from './fifths.js';
import type { Reading } from './fit.js';
import { spell } from './spelling.js';
import type { Chord, Key } from './types.js';

/** A reading as a chord with its name in a key; the bass is named where it is not the root. */
export function chordOf(reading: Reading, bass: number, key: Key): Chord {
  const { root, kind } = reading;
  const above = mod(bass - root, 12);
  const place = kind.tones.findIndex((tone) => tone % 12 === above);
  const slash = above === 0 ? '' : `/${spell(mod(bass, 12), key, reading)}`;
  return {
    root,
    intervals: kind.intervals,
    name: `${spell(root, key, reading)}${kind.symbol}${slash}`,
    inversion: place < 0 ? null : place,
  };
}
