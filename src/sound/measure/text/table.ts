/** Rows as lines, columns filled to one width; numbers and units stand right, the first column left. */
export function columns(rows: readonly (readonly string[])[]): readonly string[] {
  const count = Math.max(0, ...rows.map(({ length }) => length));
  const widths = Array.from({ length: count }, (_, column) =>
    Math.max(...rows.map((row) => [...(row[column] ?? '')].length)),
  );
  return rows.map((row) =>
    row
      .map((cell, column) => {
        const fill = ' '.repeat(Math.max(0, (widths[column] ?? 0) - [...cell].length));
        return column === 0 ? cell + fill : fill + cell;
      })
      .join('  ')
      .trimEnd(),
  );
}
