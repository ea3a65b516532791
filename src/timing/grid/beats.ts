/** The beats in which something was struck, in columns: beat `i` has the onsets from `first[i]` to before `first[i + 1]`. */
export interface Beats {
  readonly length: number;
  /** Its number: 0 at the start. */
  readonly number: Float64Array;
  /** One more than there are beats. */
  readonly first: Uint32Array;
}

/** @param onsets rising, in beats */
export function inBeats(onsets: Float64Array): Beats {
  const number = new Float64Array(onsets.length);
  const first = new Uint32Array(onsets.length + 1);
  let length = 0;
  for (let onset = 0; onset < onsets.length; onset++) {
    const beat = Math.floor(onsets[onset] ?? 0);
    if (length > 0 && number[length - 1] === beat) continue;
    number[length] = beat;
    first[length] = onset;
    length += 1;
  }
  first[length] = onsets.length;
  return { length, number, first };
}

export function beatNumber({ number }: Beats, beat: number): number {
  return number[beat] ?? 0;
}

/** The first onset of a beat; of the number of beats, how many onsets there are. */
export function firstOnset({ first }: Beats, beat: number): number {
  return first[beat] ?? 0;
}
