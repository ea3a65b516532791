/** Keeps the notes of one output channel in order while they are moved. */
export interface OrderKeeper {
  /**
   * The earliest ticks that the next note may have: behind the onset before it, and behind its own pitch's earlier
   * note. Notes that were played at the same tick do not count as before each other.
   */
  earliest(played: number, pitch: number, needsSwitch: boolean): { behindNote: number; behindPitch: number };
  /** Tells where it was put. */
  put(pitch: number, tick: number): void;
}

/** A keeper for one channel; its notes must come in the order in which they were played. */
export function orderKeeper(): OrderKeeper {
  const pitches = new Map<number, number>();
  const pending: { pitch: number; tick: number }[] = [];
  let playedNow = -1;
  let before: number | undefined;
  let latest: number | undefined;
  return {
    earliest(played, pitch, needsSwitch) {
      if (played > playedNow) {
        playedNow = played;
        before = latest;
        for (const put of pending) pitches.set(put.pitch, Math.max(put.tick, pitches.get(put.pitch) ?? 0));
        pending.length = 0;
      }
      const same = pitches.get(pitch);
      return {
        behindNote: before === undefined ? 0 : before + (needsSwitch ? 1 : 0),
        behindPitch: same === undefined ? 0 : same + 1,
      };
    },
    put(pitch, tick) {
      latest = Math.max(latest ?? 0, tick);
      pending.push({ pitch, tick });
    },
  };
}
