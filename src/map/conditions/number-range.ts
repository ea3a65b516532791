import type { NumberRange } from '../types.js';

/** Whether a number lies in a range; both bounds inclusive. */
export function numberFits({ from, to }: NumberRange, value: number): boolean {
  return (from === undefined || value >= from) && (to === undefined || value <= to);
}

/** `3 to 5`, `up to 5`, `from 3`. */
export function formatNumberRange({ from, to }: NumberRange): string {
  if (from !== undefined && to !== undefined) return from === to ? `${from}` : `${from} to ${to}`;
  if (to !== undefined) return `up to ${to}`;
  return from === undefined ? 'any' : `from ${from}`;
}
