export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Numbers in pairs: of a path's corners, or of `translate(3, 4)`. */
export function pairsIn(text: string): readonly Point[] {
  const numbers = (text.match(/-?\d+(\.\d+)?/gu) ?? []).map(Number);
  return Array.from({ length: numbers.length >> 1 }, (_, index) => ({
    x: numbers[2 * index] ?? 0,
    y: numbers[2 * index + 1] ?? 0,
  }));
}

/** The first pair of numbers. */
export function firstPair(text: string): Point | undefined {
  const [, x, y] = /(-?\d+(?:\.\d+)?)[^\d-]+(-?\d+(?:\.\d+)?)/u.exec(text) ?? [];
  return x === undefined || y === undefined ? undefined : { x: Number(x), y: Number(y) };
}
