import type { Library } from './library.js';
import type { Arrival, Sampler } from './sampler.js';

/** What a sampler makes of a note that arrives now. */
export interface Judgement {
  /** Whether what is set selects the articulation that is meant. */
  readonly isSelected: boolean;
  /** Another articulation that needs all that the meant one needs, and more, and has it. */
  readonly hiddenBy: string | undefined;
  /** The articulations that sound; listed only where the meant one does not. */
  readonly sounds: readonly string[];
  /** The key switches that make it sound as meant: the tick at which each was struck, by aspect. */
  readonly keys: readonly { readonly aspect: string; readonly tick: number }[];
}

/** @param meant the name of the articulation that is meant; undefined where none is known */
export function judge(
  sampler: Sampler,
  library: Library,
  arrival: Arrival,
  meant: string | undefined,
): Judgement {
  const sound = meant === undefined ? undefined : library.sounds.get(meant);
  if (!sound || !sampler.selects(arrival, sound))
    return { isSelected: false, hiddenBy: undefined, sounds: sampler.selected(arrival), keys: [] };
  const hiding = library.covering(sound).find((other) => sampler.selects(arrival, other));
  const keys = sound.elements.flatMap(({ aspect, by }) =>
    by === 'key' ? [{ aspect, tick: sampler.content(arrival.channel, aspect)?.tick ?? 0 }] : [],
  );
  return { isSelected: true, hiddenBy: hiding?.name, sounds: hiding ? sampler.selected(arrival) : [], keys };
}
