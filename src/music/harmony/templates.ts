import { countOf, setAbove, setOf } from './class-set.js';
import { bassAt } from './weight-sums.js';

/**
 * The chords that harmonic rhythm is heard by, in semitones above the root, with what choosing one costs: the six of
 * Pardo and Birmingham (2002), then others that are settled enough to stand for themselves. Costs are our own, set
 * on 97 analysed chorales by J. S. Bach (Riemenschneider 201–300, analyses of an open corpus that are not part of this
 * project); test/external/harmony measures what they are worth on those that were not looked at.
 */
export const templates: readonly (readonly [cost: number, tones: readonly number[]])[] = [
  [0, [0, 4, 7]],
  [0, [0, 3, 7]],
  [0.2, [0, 4, 7, 10]],
  [0.6, [0, 3, 6]],
  [1.2, [0, 3, 6, 10]],
  [1.2, [0, 3, 6, 9]],
  [1.2, [0, 3, 7, 10]],
  [1.8, [0, 4, 7, 11]],
  [1.5, [0, 4, 8]],
  [2.5, [0, 7]],
  [3.5, [0, 5, 7]],
  [3.5, [0, 2, 7]],
  [3.5, [0, 2, 4, 7]],
  [3.5, [0, 2, 3, 7]],
  [3.5, [0, 5, 7, 10]],
  [3.5, [0, 2, 4, 7, 10]],
  [3.8, [0, 3, 5, 10]],
];

/** What each tone of a chord that does not sound takes away. */
const missingTone = 0.4;
/** Less than this is what sums of weights lose to rounding. */
const leastWeight = 1e-6;

/** What each pitch class adds to a template that has it, in two octaves, so that a root's tones need no wrapping. */
const gains = new Float64Array(24);

/**
 * How well the best template explains the weight of twelve pitch classes: twice what it matches, less all that sounds,
 * less tones that are missing and its cost. The root must sound.
 *
 * @param sums running sums of weights (see `WeightSums`); what is looked at is what was added from one row to the other
 * @param from where the row before it begins; `to` where the row behind it does
 * @param least what at least is of use: of a score that is not above it, only that is told
 */
export function templateScore(sums: Float64Array, from: number, to: number, least: number): number {
  let total = 0;
  let sounding = 0;
  for (let pitchClass = 0; pitchClass < 12; pitchClass++) {
    const weight = added(sums, from + pitchClass, to + pitchClass);
    const sounds = weight > leastWeight;
    const gain = sounds ? 2 * weight : -missingTone;
    gains[pitchClass] = gain;
    gains[pitchClass + 12] = gain;
    if (weight > 0) total += weight;
    if (sounds) sounding |= 1 << pitchClass;
  }
  let best = 0;
  const needed = least + total - leastWeight;
  for (let root = 0; root < 12; root++) {
    if ((sounding & (1 << root)) === 0) continue;
    const inBass = added(sums, from + bassAt + root, to + bassAt + root);
    if (mostOn(root) + inBass < needed) continue;
    const score = bestOn(root, sounding) + inBass;
    if (score > best) best = score;
  }
  return best - total;
}

function added(sums: Float64Array, from: number, to: number): number {
  return (sums[to] ?? 0) - (sums[from] ?? 0);
}

/**
 * No template has more on a root. Each has at most one tone of each line here; to have a seventh costs 0.2 at least, and a
 * second or a fourth 3.3 more. Most roots need no closer look: what is asked for takes a fifth of the time.
 */
function mostOn(root: number): number {
  const third = Math.max(0, gainOn(root + 3), gainOn(root + 4));
  const fifth = Math.max(0, gainOn(root + 6), gainOn(root + 7), gainOn(root + 8));
  const seventh = Math.max(0, Math.max(gainOn(root + 9), gainOn(root + 10), gainOn(root + 11)) - 0.2);
  const added = Math.max(0, Math.max(gainOn(root + 2), gainOn(root + 5)) - 3.3);
  return gainOn(root) + third + fifth + seventh + added;
}

function gainOn(place: number): number {
  return gains[place] ?? 0;
}

function bestOn(root: number, sounding: number): number {
  const able = ableTemplates(setAbove(root, sounding));
  let best = 0;
  for (let at = 0; at < able.length; at++) {
    const template = able[at] ?? 0;
    let sum = -(costs[template] ?? 0);
    for (let tone = starts[template] ?? 0; tone < (starts[template + 1] ?? 0); tone++)
      sum += gains[root + (tones[tone] ?? 0)] ?? 0;
    if (sum > best) best = sum;
  }
  return best;
}

/** The templates in columns: template `i` has the tones from `starts[i]` to before `starts[i + 1]`. */
const costs = Float64Array.from(templates, ([cost]) => cost);
const tones = Uint8Array.from(templates.flatMap(([, own]) => own));
const starts = Uint8Array.from(
  [...templates.keys(), templates.length],
  (count) => templates.slice(0, count).flatMap(([, own]) => own).length,
);
const masks: readonly number[] = templates.map(([, tones]) => setOf(tones));
/** For each set of pitch classes above a root, once it was asked for, the templates that can be the best. */
const ableBySet: (Uint8Array | undefined)[] = new Array(1 << 12);

/**
 * The templates that can be the best on a root, whatever the weights are: of those that match the same tones, or fewer,
 * one that is dearer with its missing tones is not looked at. That leaves some 2 of 17 where 3 or 4 pitch classes sound.
 */
function ableTemplates(sounding: number): Uint8Array {
  const known = ableBySet[sounding];
  if (known) return known;
  const matched = masks.map((mask) => mask & sounding);
  const prices = templates.map(([cost], index) => {
    return cost + missingTone * countOf((masks[index] ?? 0) & ~sounding);
  });
  const found = Uint8Array.from(masks.keys()).filter(
    (index) =>
      !prices.some((price, other) => {
        const isWithin = ((matched[index] ?? 0) & ~(matched[other] ?? 0)) === 0;
        // Equal ones are both kept: which of them rounding makes the better is not known before.
        return isWithin && price < (prices[index] ?? 0) - leastWeight;
      }),
  );
  ableBySet[sounding] = found;
  return found;
}
