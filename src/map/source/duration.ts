import type { Duration } from '../../midi/index.js';

/** A duration as a map spells it: `25ms`, `0.5s`, `1/16`. The schema has made sure of its form. */
export function parseDuration(text: string): Duration {
  const [numerator = '', denominator] = text.split('/');
  if (denominator !== undefined)
    return { unit: 'whole', numerator: Number(numerator), denominator: Number(denominator) };
  const value = Number.parseFloat(text);
  // Seconds times 1000 may miss a whole number by a hair: 1.005s.
  return { unit: 'ms', ms: text.endsWith('ms') ? value : Math.round(value * 1e9) / 1e6 };
}
