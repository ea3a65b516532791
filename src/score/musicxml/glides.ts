import type { ScoreNote } from '../model.js';
import type { Glide } from './notations.js';
import type { Draft, PartState } from './state.js';

/**
 * Glissandi and slides from note to note. A glissando sounds the keys between; a slide, which has none, is joined to
 * where it leads (MusicXML 4.0, glissando, slide).
 */
export function glide(note: Draft<ScoreNote>, ends: readonly Glide[], state: PartState): void {
  for (const { name, type, number, element } of ends) {
    const key = `${name} ${number}`;
    const begun = state.glides.get(key);
    if (type === 'stop' && begun) {
      state.glides.delete(key);
      const { note: from } = begun;
      if (name === 'slide') from.isSlurred = true;
      else
        from.ornaments = [
          ...from.ornaments,
          { kind: 'glissando', marks: [], distance: note.pitch - from.pitch },
        ];
    } else if (type === 'stop') unpaired(name, element, 'ends here and never began', state);
  }
  for (const { name, type, number, element } of ends)
    if (type === 'start') state.glides.set(`${name} ${number}`, { note, spot: element });
}

/** Tells of those that lead nowhere. */
export function openGlides(state: PartState): void {
  for (const [key, { spot }] of state.glides)
    unpaired(key.split(' ')[0] ?? '', spot, 'begins here and never ends', state);
}

function unpaired(
  name: string,
  spot: { line: number; column: number },
  what: string,
  state: PartState,
): void {
  state.found.warning('score-unpaired', spot, `a ${name} ${what}`, 'pair it by its number');
}
