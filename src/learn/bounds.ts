/** A bound as a human writes one. */
export interface Bound {
  /** In the feature's unit: ms, whole notes, percent, or a plain number. */
  readonly value: number;
  /** As a map spells it: `130ms`, `1/16`, `50%`, `64`. */
  readonly text: string;
  /** 0 for the roundest; 3 for one that nobody would write unless it matters. */
  readonly tier: number;
}

/** Rising multiples: `[[10, 100], [20, 200]]` is 10, 20 … 100, 120 … 200. */
function steps(...spans: readonly (readonly [step: number, to: number])[]): readonly number[] {
  const values: number[] = [];
  let from = 0;
  for (const [step, to] of spans) {
    for (let value = from + step; value <= to; value += step) values.push(value);
    from = to;
  }
  return values;
}

const roundTimes = new Set([50, 100, 150, 200, 250, 300, 400, 500, 750, 1000, 1500, 2000, 3000, 4000]);

/** Times that a human would write; steps of a few percent where most notes are. */
export const times: readonly Bound[] = steps([5, 500], [10, 700], [50, 1000], [100, 2000], [500, 8000]).map(
  (value) => ({ value, text: value % 1000 === 0 ? `${value / 1000}s` : `${value}ms`, tier: timeTier(value) }),
);

function timeTier(value: number): number {
  if (roundTimes.has(value)) return 0;
  if (value < 200 ? value % 10 === 0 : value % 50 === 0) return 1;
  return value < 50 || (value <= 500 && value % 10 === 0) || value > 700 ? 2 : 3;
}

const plainFractions = ['1/64', '1/32', '1/16', '1/8', '1/4', '1/2', '1/1'];
const otherFractions = [
  ...[
    '1/48',
    '3/64',
    '1/24',
    '3/32',
    '1/12',
    '3/16',
    '1/6',
    '5/16',
    '1/3',
    '3/8',
    '2/3',
    '3/4',
    '7/8',
    '5/4',
    '3/2',
    '2/1',
  ],
];

/** Note values: plain ones, then dotted ones and triplets. In whole notes. */
export const fractions: readonly Bound[] = [
  ...plainFractions.map((text) => fraction(text, 0)),
  ...otherFractions.map((text) => fraction(text, 1)),
].sort((a, b) => a.value - b.value);

function fraction(text: string, tier: number): Bound {
  const [numerator = 1, denominator = 1] = text.split('/').map(Number);
  return { value: numerator / denominator, text, tier };
}

/** Shares of the interval, in percent. */
export const shares: readonly Bound[] = steps([1, 120], [5, 150], [10, 200], [50, 400]).map((value) => ({
  value,
  text: `${value}%`,
  tier: [25, 10, 5, 1].findIndex((step) => value % step === 0),
}));

/** Whole numbers of a range; the round ones first. */
export function numbers(from: number, to: number, tierOf: (value: number) => number): readonly Bound[] {
  return Array.from({ length: to - from + 1 }, (_, index) => {
    const value = from + index;
    return { value, text: String(value), tier: tierOf(value) };
  });
}
