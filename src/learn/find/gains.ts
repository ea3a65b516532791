/** Rows that a new rule could decide, and what it would gain by each: weight where it is right and the rest is not. */
export interface Field {
  readonly rows: Int32Array;
  /** What deciding the row gains: its weight, its weight less, or 0. */
  readonly gains: Float64Array;
  readonly weights: Float64Array;
}
