/** Whether an element is of a class, among others or alone. */
export function hasClass(names: string | undefined, name: string): boolean {
  if (names === undefined) return false;
  // Most have one class, or are of another; only then need names be told apart.
  return names === name || (names.includes(name) && names.split(' ').includes(name));
}

/** The first of an element's classes says what it is. */
export function firstClass(names: string): string {
  const [name = ''] = names.split(' ', 1);
  return name;
}
