/** A column of numbers. */
export type Column = Uint8Array | Uint32Array | Int32Array | Float64Array;

/** Some of a column's numbers, by index, in a column of the same kind. */
export function picked<C extends Column>(column: C, indices: ArrayLike<number>): C {
  const some = new (column.constructor as new (length: number) => C)(indices.length);
  for (let at = 0; at < some.length; at++) some[at] = column[indices[at] ?? 0] ?? 0;
  return some;
}
