import { formatBars, partHeading } from '../../midi/index.js';
import type { MeasureName } from '../mechanical/index.js';
import type { Inspected } from './mechanical.js';

const says: { readonly [M in MeasureName]: (count: number, of: number) => string } = {
  'exact-onsets': (count, of) => `${count} of ${of} onsets stand exactly on the grid`,
  'unspread-chords': (count, of) => `${count} of ${of} chords are struck at one instant`,
  'same-velocities': (count, of) => `${count} of ${of} notes repeat the velocity before them`,
  'same-lengths': (count, of) => `${count} of ${of} notes repeat the length before them`,
  'no-dynamics': (count, of) => `${count} of ${of} bars have no dynamics controller`,
};

/** What was found in a part, in plain sentences: what is heard as mechanical, where, and what mends it. */
export function inspectedText({ part, notes, measures }: Inspected): string {
  const heading = `${partHeading(part)}: ${notes} notes`;
  const lines = measures.flatMap(({ measure, count, of, bars, mends }) => {
    const said = `  ${says[measure](count, of)}`;
    return bars.length === 0
      ? [said]
      : [`${said}; heard as mechanical in ${formatBars(bars)}`, `      ${mends}`];
  });
  return [heading, ...lines].join('\n');
}
