/**
 * Marks that take each other's place: `arco` ends `pizz.`, `senza sord.` ends `con sord.`, a new length word
 * ends the one before. Common practice, no source. Marks of different families, and marks of none, add up.
 */
const families: readonly (readonly string[])[] = [
  ['arco', 'pizz.', 'col legno', 'snap-pizzicato'],
  ['con sord.', 'senza sord.', 'stopped', 'open', 'half-muted'],
  ['sul pont.', 'sul tasto'],
  ['staccato', 'staccatissimo', 'spiccato', 'tenuto', 'detached-legato', 'legato'],
];

const familyOf: ReadonlyMap<string, number> = new Map(
  families.flatMap((names, family) => names.map((name) => [name, family] as const)),
);

/** Whether a mark that begins ends another that is in force. */
export function endsMark(
  beginning: string,
  inForce: string,
  isArticulation: (name: string) => boolean,
): boolean {
  if (isArticulation(beginning)) return isArticulation(inForce);
  const family = familyOf.get(beginning);
  return family !== undefined && family === familyOf.get(inForce);
}
