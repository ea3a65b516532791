import { type Bound, fractions, numbers, shares, times } from './bounds.js';
import type { LearnNotes } from './notes.js';

/** The keys of a map's `when` that a ladder may be learned with. */
export type Key =
  | 'held-share'
  | 'held'
  | 'overlaps-next'
  | 'overlaps-previous'
  | 'pace'
  | 'rest-before'
  | 'rest-after'
  | 'velocity'
  | 'pitch'
  | 'leap'
  | 'chord'
  | 'repeats-previous'
  | 'repeats-next';

export type Unit = 'ms' | 'whole' | 'percent' | 'number' | 'flag';

/** Something that a condition may ask of a note, with the bounds that it may ask by. */
export interface Feature {
  readonly key: Key;
  readonly unit: Unit;
  /** Bits that asking for it costs, beside its bounds: what composers ask for first is cheap. */
  readonly price: number;
  /** Rising. A flag has one, at 1. */
  readonly bounds: readonly Bound[];
  /** A value for each row; NaN where no condition fits. */
  column(notes: LearnNotes): Float64Array;
}

type ColumnName = Exclude<keyof LearnNotes, 'length' | 'pieces' | 'articulations'>;

const plain = (name: ColumnName) => (notes: LearnNotes) => Float64Array.from(notes[name]);

/** Ticks as whole notes; a quotient is rounded as the bound's own is, so that a note of just 1/12 is not below it. */
const whole = (name: ColumnName) => (notes: LearnNotes) =>
  Float64Array.from(
    notes[name],
    (ticks, row) => ticks / (notes.pieces[notes.piece[row] ?? 0]?.ticksPerWhole ?? 1),
  );

const span = (key: Key, name: 'held' | 'pace' | 'restBefore' | 'restAfter', price: number): Feature[] => [
  { key, unit: 'ms', price, bounds: times, column: plain(`${name}Ms`) },
  { key, unit: 'whole', price: price + 1, bounds: fractions, column: whole(`${name}Ticks`) },
];

const flag = (key: Key, name: ColumnName, price: number): Feature => ({
  key,
  unit: 'flag',
  price,
  bounds: [{ value: 1, text: 'true', tier: 0 }],
  column: plain(name),
});

const velocities = numbers(2, 127, (value) =>
  value % 10 === 0 ? 0 : value % 5 === 0 || value === 64 ? 1 : 2,
);

/** Everything that a rule may ask, in the order in which a composer would think of it. */
export const features: readonly Feature[] = [
  { key: 'held-share', unit: 'percent', price: 1.5, bounds: shares, column: plain('heldShare') },
  ...span('held', 'held', 2),
  flag('overlaps-next', 'overlapsNext', 2.5),
  ...span('pace', 'pace', 3),
  ...span('rest-before', 'restBefore', 3.5),
  ...span('rest-after', 'restAfter', 3.5),
  { key: 'velocity', unit: 'number', price: 3, bounds: velocities, column: plain('velocity') },
  { key: 'pitch', unit: 'number', price: 3.5, bounds: numbers(1, 127, () => 0), column: plain('pitch') },
  {
    key: 'leap',
    unit: 'number',
    price: 3.5,
    bounds: numbers(1, 24, (value) => (value <= 12 ? 0 : 1)),
    column: plain('leap'),
  },
  { key: 'chord', unit: 'number', price: 3.5, bounds: numbers(2, 10, () => 0), column: plain('chord') },
  flag('repeats-previous', 'repeatsPrevious', 4),
  flag('repeats-next', 'repeatsNext', 4),
  flag('overlaps-previous', 'overlapsPrevious', 4.5),
];
