/**
 * The chords that harmonic rhythm is heard by, in semitones above the root, with what choosing one costs: the six of
 * Pardo and Birmingham (2002), then others that are settled enough to stand for themselves. Costs are our own, set
 * on 97 analysed chorales by J. S. Bach (Riemenschneider 201–300, analyses of an open corpus that are not part of this
 * project); test/external/harmony measures what they are worth on those that were not looked at.
 */
const templates: readonly (readonly [cost: number, tones: readonly number[]])[] = [
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
/** Templates as one list of as many tones each; those of fewer are filled with a place that counts nothing. */
const tonesEach = 5;
const nothing = 24;
const tones = Int8Array.from(
  templates.flatMap(([, own]) => [...own, ...new Array<number>(tonesEach - own.length).fill(nothing)]),
);
const costs = Float64Array.from(templates, ([cost]) => cost);

/** What each pitch class adds to a template that has it: two octaves, and room above for places that count nothing. */
const gains = new Float64Array(2 * nothing);

/**
 * How well the best template explains the weight of twelve pitch classes: twice what it matches, less all that sounds,
 * less tones that are missing and its cost. The root must sound.
 *
 * @param weightOf weight of a pitch class; not below 0 but for rounding
 * @param bassOf what a pitch class in the bass is worth to the chord whose root it is
 */
export function templateScore(
  weightOf: (pitchClass: number) => number,
  bassOf: (pitchClass: number) => number,
): number {
  let total = 0;
  for (let pitchClass = 0; pitchClass < 12; pitchClass++) {
    const weight = weightOf(pitchClass);
    const gain = weight > leastWeight ? 2 * weight : -missingTone;
    gains[pitchClass] = gain;
    gains[pitchClass + 12] = gain;
    total += Math.max(0, weight);
  }
  let best = 0;
  for (let root = 0; root < 12; root++)
    if ((gains[root] ?? 0) > 0) best = Math.max(best, bestOn(root) + bassOf(root));
  return best - total;
}

function bestOn(root: number): number {
  let best = 0;
  for (let template = 0, at = 0; template < costs.length; template++) {
    let sum = -(costs[template] ?? 0);
    for (const next = at + tonesEach; at < next; at++) {
      const tone = tones[at] ?? nothing;
      if (tone !== nothing) sum += gains[root + tone] ?? 0;
    }
    if (sum > best) best = sum;
  }
  return best;
}
