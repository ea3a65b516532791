/** A number with its word: `1 note`, `2 notes`, `3 switches`. */
export function plural(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
