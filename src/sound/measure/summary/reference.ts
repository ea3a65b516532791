import { median } from '../../signal/index.js';
import { identityLevels } from '../keyslip.js';
import type { VelocityLevel } from '../result.js';
import { levelAt, rising } from './marks.js';

/** The loudness of mf where velocity alone makes louder: the middle of the articulations. Unit: LUFS. */
export function referenceByVelocity(velocities: readonly VelocityLevel[]): number | undefined {
  const mf = identityLevels.get('mf') ?? Number.NaN;
  const names = [...new Set(velocities.map(({ articulation }) => articulation))];
  const levels = names.map((name) => {
    const own = velocities.filter(({ articulation }) => articulation === name);
    return levelAt(rising(own.map(({ velocity: value, dB }) => ({ value, dB }))), mf);
  });
  const middle = median(levels.filter(Number.isFinite));
  return Number.isFinite(middle) ? middle : undefined;
}
