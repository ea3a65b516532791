/** Names up to this are not cut. */
const SHORT = 8;

/** A part's name as it stands before every system but the first: longer words cut behind their fourth letter. */
export function abbreviated(name: string): string {
  const trimmed = name.trim();
  if ([...trimmed].length <= SHORT) return trimmed;
  return trimmed.replace(/[\p{L}\p{M}]{6,}/gu, (word) => `${[...word].slice(0, 4).join('')}.`);
}
