import { accents, dynamicOf, velocityOfPercent, withinVelocities } from '../loudness.js';
import type { PlacedSign } from './levels.js';
import type { Sounding } from './notes.js';

/** What a dynamic such as fp or sfz does to the onset that it stands at. */
export function suddenAt(
  signs: readonly PlacedSign[],
): ReadonlyMap<number, { at: number | null; accent: number }> {
  const all = new Map<number, { at: number | null; accent: number }>();
  for (const { tick, item } of signs) {
    if (item.kind !== 'dynamic') continue;
    const { at, accent } = dynamicOf(item.name);
    if (at !== null || accent > 0) all.set(tick, { at, accent });
  }
  return all;
}

/** The velocity of a note: its own where it has one, else the level and its accents. */
export function velocityOf(
  { note }: Sounding,
  level: number,
  sudden: { at: number | null; accent: number } | undefined,
): number {
  if (note.loudness !== null) return withinVelocities(velocityOfPercent(note.loudness));
  const marks = note.marks.reduce((sum, name) => sum + (accents.get(name) ?? 0), 0);
  return withinVelocities((sudden?.at ?? level + (sudden?.accent ?? 0)) + marks);
}
