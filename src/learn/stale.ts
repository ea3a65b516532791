import type { Material } from './material.js';

/** How many switches are forgotten, where some are: what the weights are made for. */
const forgottenShare = 0.25;

/** No known note counts less than this. */
const leastWeight = 0.3;

/**
 * How far each label is to be believed where switches are forgotten. A note that follows a switch is surely meant; each
 * note later without one it is less sure that none was forgotten. If a change is due at a share c of the notes and a
 * share f of changes is forgotten, a label that is still good is so at the next note, where no switch stands, with
 * the probability (1 − c) / (1 − c + f·c).
 */
export function staleWeights({ notes, labels }: Material): Float64Array {
  let placed = 0;
  const follows = (row: number) => row > 0 && notes.piece[row] === notes.piece[row - 1];
  for (let row = 0; row < labels.length; row++) if (follows(row) && labels[row] !== labels[row - 1]) placed++;
  const due = Math.min(0.9, placed / Math.max(1, labels.length) / (1 - forgottenShare));
  const stays = (1 - due) / (1 - due + forgottenShare * due);
  const weights = new Float64Array(labels.length);
  let since = 0;
  for (let row = 0; row < labels.length; row++) {
    since = follows(row) && labels[row] === labels[row - 1] ? since + 1 : 0;
    weights[row] = Math.max(leastWeight, stays ** since);
  }
  return weights;
}
