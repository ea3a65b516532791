// What a match file (version 1.0.0) says: which note of the score each played note is.

/** Ids of written notes, with the pass behind a hyphen where the file has one; played notes by onset and pitch. */
export interface Checked {
  readonly written: readonly { readonly id: string; readonly taken: number | null }[];
  readonly taken: readonly { readonly tick: number; readonly pitch: number }[];
}

const pair = /^snote\(([^,]+),.*\)-note\([^,]+,(\d+),(\d+),/u;
const deletion = /^snote\(([^,]+),.*\)-deletion\.$/u;
const insertion = /^insertion-note\([^,]+,(\d+),(\d+),/u;

export function readMatch(text: string): Checked {
  const written: { id: string; taken: number | null }[] = [];
  const taken: { tick: number; pitch: number }[] = [];
  const play = (pitch = '', tick = '') => taken.push({ tick: Number(tick), pitch: Number(pitch) }) - 1;
  for (const line of text.split(/\r?\n/u)) {
    const both = pair.exec(line);
    const missing = deletion.exec(line);
    const extra = insertion.exec(line);
    if (both) written.push({ id: both[1] ?? '', taken: play(both[2], both[3]) });
    else if (missing) written.push({ id: missing[1] ?? '', taken: null });
    else if (extra) play(extra[1], extra[2]);
  }
  return { written, taken };
}
