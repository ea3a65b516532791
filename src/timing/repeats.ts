/** Notes in order of their played onsets, with their ticks as they were played and as they are to be, in columns. */
export interface MovedNotes {
  readonly pitch: Uint8Array;
  /** 0–15. */
  readonly channel: Uint8Array;
  readonly playedOnset: Float64Array;
  readonly playedRelease: Float64Array;
  readonly onset: Float64Array;
  readonly release: Float64Array;
}

/** A strike of each key of each channel: the earliest of the notes of one pitch that were played at one tick. */
class Strikes {
  /** NaN where there is none. */
  readonly played = new Float64Array(16 * 128).fill(Number.NaN);
  readonly tick = new Float64Array(16 * 128);
  readonly moved = new Uint8Array(16 * 128);

  set(key: number, played: number, tick: number, moved: number): void {
    this.played[key] = played;
    this.tick[key] = tick;
    this.moved[key] = moved;
  }

  /** Whether there is one of a tick; then another of its notes is counted in. */
  takes(key: number, played: number, tick: number, moved: number): boolean {
    if (this.played[key] !== played) return false;
    this.set(key, played, Math.min(this.tick[key] ?? 0, tick), (this.moved[key] ?? 0) | moved);
    return true;
  }

  /** Becomes what another has for a key. */
  take(other: Strikes, key: number): void {
    this.set(key, other.played[key] ?? Number.NaN, other.tick[key] ?? 0, other.moved[key] ?? 0);
  }
}

/**
 * The releases with which no note is still held where its pitch is struck again on its channel. Notes that
 * overlapped so as they were played keep their length; so do notes of one pitch struck at one tick. Linear in notes.
 */
export function releasesBeforeRepeats(notes: MovedNotes): Float64Array {
  const releases = notes.release.slice();
  // From the end on: the strike of each key that was met last, and the one behind it.
  const [own, next] = [new Strikes(), new Strikes()];
  for (let note = releases.length - 1; note >= 0; note--) {
    const key = (notes.channel[note] ?? 0) * 128 + (notes.pitch[note] ?? 0);
    const [played, onset] = [notes.playedOnset[note] ?? 0, notes.onset[note] ?? 0];
    const moved = onset === played ? 0 : 1;
    if (!own.takes(key, played, onset, moved)) {
      next.take(own, key);
      own.set(key, played, onset, moved);
    }
    const [playedRelease, release] = [notes.playedRelease[note] ?? 0, notes.release[note] ?? 0];
    const isTouched = next.moved[key] === 1 || moved === 1 || release !== playedRelease;
    if (isTouched && playedRelease <= (next.played[key] ?? Number.NaN))
      releases[note] = Math.min(release, next.tick[key] ?? 0);
  }
  return releases;
}
