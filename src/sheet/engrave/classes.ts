/** What an element is in a drawing, by its classes. */
export interface Role {
  /** A number of a bar, which the page writes itself. */
  readonly isNumber: boolean;
  /** Whether the page's style speaks of it. */
  readonly isSpokenOf: boolean;
  /** Whether it is told where it stands. */
  readonly isPlaced: boolean;
  readonly isStaff: boolean;
  readonly isMeasure: boolean;
}

const spokenOf = new Set(['dir', 'harm', 'label', 'labelAbbr', 'notehead']);

/** There are some dozens of them, and each is asked for thousands of times. */
const roles = new Map<string, Role>();

/** What an element of these classes is. */
export function roleOf(classes = ''): Role {
  const known = roles.get(classes);
  if (known) return known;
  const names = classes.split(' ');
  const role = {
    isNumber: names.includes('mNum'),
    isSpokenOf: spokenOf.has(names[0] ?? ''),
    isPlaced: names.includes('note') || names.includes('rest'),
    isStaff: names.includes('staff'),
    isMeasure: names.includes('measure'),
  };
  roles.set(classes, role);
  return role;
}

/** The first of an element's classes says what it is. */
export function firstClass(names: string): string {
  const end = names.indexOf(' ');
  return end < 0 ? names : names.slice(0, end);
}
