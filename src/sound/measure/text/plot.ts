/** The width of a plot. Unit: characters. */
const width = 48;

/**
 * Where a time may lie, on a line from 0 to the longest: `    |--o-------|`, from the earliest to the latest with a
 * round mark between them.
 */
export function rangeLine(early: number, at: number, late: number, longest: number): string {
  const place = (value: number) =>
    Math.max(0, Math.min(width - 1, Math.round(((width - 1) * value) / Math.max(1e-9, longest))));
  const line = Array.from({ length: width }, () => ' ');
  for (let index = place(early); index <= place(late); index++) line[index] = '-';
  line[place(early)] = '|';
  line[place(late)] = '|';
  line[place(at)] = 'o';
  return line.join('').trimEnd();
}

/** A bar from the softest to a level. */
export function bar(value: number, softest: number, loudest: number): string {
  const share = (value - softest) / Math.max(1e-9, loudest - softest);
  return '#'.repeat(Math.max(1, Math.round(width * Math.max(0, Math.min(1, share)))));
}
