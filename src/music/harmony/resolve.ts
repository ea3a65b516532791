import { mod } from './fifths.js';
import type { Reading } from './fit.js';
import { type Kind, kindWith } from './kinds.js';

const minorSeventh = kindWith([0, 3, 7, 10]);
const halfDiminished = kindWith([0, 3, 6, 10]);

/**
 * Chords whose tones allow several roots are decided by what follows, as Pardo and Birmingham (2002) do for diminished
 * sevenths: their root lies a semitone below the next one. A sixth chord is a seventh chord in first inversion where
 * its root falls a fifth to the next: F6 before G is Dm7/F.
 */
export function resolved(reading: Reading, next: Reading | null): Reading {
  if (!next) return reading;
  const { root, kind } = reading;
  if (kind.symbol === 'dim7') {
    const leading = mod(next.root - 1, 12);
    return mod(leading - root, 3) === 0 ? { ...reading, root: leading } : reading;
  }
  const seventh: Kind | undefined =
    kind.symbol === '6' ? minorSeventh : kind.symbol === 'm6' ? halfDiminished : undefined;
  return seventh && mod(next.root - root, 12) === 2
    ? { ...reading, root: mod(root - 3, 12), kind: seventh }
    : reading;
}
