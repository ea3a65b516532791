import type { Sheet } from './types.js';

/** How many notes a sheet has, and how many switches. */
export function countsOf({ parts }: Pick<Sheet, 'parts'>): {
  readonly notes: number;
  readonly switches: number;
} {
  return {
    notes: parts.reduce((sum, { notes }) => sum + notes.length, 0),
    switches: parts.reduce((sum, { switches }) => sum + switches.length, 0),
  };
}
