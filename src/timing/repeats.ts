/** A note with its ticks as they were played and as they are to be. */
export interface MovedNote {
  readonly pitch: number;
  readonly channel: number;
  readonly played: { readonly onset: number; readonly release: number };
  readonly onset: number;
  readonly release: number;
}

/** The earliest of one pitch's notes that were played at one tick. */
interface Strike {
  readonly played: number;
  tick: number;
  moved: boolean;
  readonly next: Strike | undefined;
}

/**
 * The releases with which no note is still held where its pitch is struck again on its channel. Notes that
 * overlapped so as they were played keep their length; so do notes of one pitch struck at one tick. Linear in notes.
 *
 * @param notes in order of their played onsets
 */
export function releasesBeforeRepeats(notes: readonly MovedNote[]): readonly number[] {
  const releases = notes.map((note) => note.release);
  const strikes = new Map<number, Strike>();
  for (let index = notes.length - 1; index >= 0; index -= 1) {
    const note = notes[index];
    if (!note) continue;
    const next = struckAgain(strikes, note);
    const touched = next?.moved === true || hasMoved(note) || note.release !== note.played.release;
    if (next && touched && note.played.release <= next.played)
      releases[index] = Math.min(note.release, next.tick);
  }
  return releases;
}

/** The next strike of the note's pitch behind its own; its own becomes the next for the notes before it. */
function struckAgain(strikes: Map<number, Strike>, note: MovedNote): Strike | undefined {
  const key = note.channel * 128 + note.pitch;
  const latest = strikes.get(key);
  if (latest?.played === note.played.onset) {
    latest.tick = Math.min(latest.tick, note.onset);
    latest.moved ||= hasMoved(note);
    return latest.next;
  }
  strikes.set(key, { played: note.played.onset, tick: note.onset, moved: hasMoved(note), next: latest });
  return latest;
}

function hasMoved(note: MovedNote): boolean {
  return note.onset !== note.played.onset;
}
