import type { Library, Sound } from './library.js';
import type { Sampler } from './sampler.js';

/** What a sampler makes of a note that arrives. */
export interface Judgement {
  /** Whether what is set selects the articulation that is meant. */
  readonly isSelected: boolean;
  /** Another articulation that needs all that the meant one needs, and more, and has it. */
  readonly hiddenBy: string | undefined;
  /** The first of the articulations that sound instead. */
  readonly instead: string | undefined;
}

/** It sounds as meant. */
export const right: Judgement = { isSelected: true, hiddenBy: undefined, instead: undefined };

/**
 * @param noteOn the index of its note-on
 * @param meant what is meant; undefined where that is not known
 */
export function judge(
  sampler: Sampler,
  library: Library,
  noteOn: number,
  meant: Sound | undefined,
): Judgement {
  const isSelected = meant !== undefined && sampler.selects(noteOn, meant);
  const hiding = isSelected && library.covering(meant).find((other) => sampler.selects(noteOn, other));
  if (isSelected && !hiding) return right;
  const hiddenBy = hiding ? hiding.name : undefined;
  return { isSelected, hiddenBy, instead: sampler.selected(noteOn)[0]?.name };
}
