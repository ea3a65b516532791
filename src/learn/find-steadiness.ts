import { articulationsOf, decideRules, type Ladder } from './ladder.js';
import type { Material } from './material.js';
import { steadyRules } from './steadiness.js';

/** The bands that are tried, as shares of a bound. */
const bands = [0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5];

/** A band must make this share of the notes right, beyond what chance would. */
const leastGain = 0.003;

/** The steadiness with which a ladder gives most notes what sounded there; 0 where none clearly helps. */
export function findSteadiness(material: Material, rows: Int32Array, ladder: Ladder): number {
  const { notes, columnOf, labels, weights } = material;
  if (ladder.length < 2) return 0;
  const plain = articulationsOf(ladder, decideRules(ladder, notes.length, columnOf));
  const total = rows.reduce((sum, row) => sum + (weights[row] ?? 0), 0);
  const tried = bands.map((band) => {
    const says = articulationsOf(ladder, steadyRules(ladder, notes, columnOf, band));
    let gained = 0;
    let changes = 0;
    for (const row of rows) {
      const weight = weights[row] ?? 0;
      const change = Number(says[row] === labels[row]) - Number(plain[row] === labels[row]);
      gained += change * weight;
      changes += Math.abs(change) * weight * weight;
    }
    // A change for the better or the worse is as likely where steadiness means nothing: two standard deviations.
    return { band, gained, sure: gained > Math.max(leastGain * total, 2 * Math.sqrt(changes)) };
  });
  const most = Math.max(...tried.map(({ gained }) => gained));
  return tried.find(({ gained, sure }) => sure && gained >= most - 0.001 * total)?.band ?? 0;
}
