/** What an onset's note has to stay behind: the earliest tick, and which of two it was. */
export interface Earliest {
  readonly tick: number;
  readonly behind: 'note' | 'pitch' | 'nothing';
}

/** A note where it stands now, and where it was put. */
export interface Placed {
  readonly channel: number;
  readonly pitch: number;
  readonly onset: number;
  readonly tick: number;
}

/** Keeps the onsets of each output channel, and the strikes of each pitch, in order while they are moved earlier. */
export interface OrderKeeper {
  /**
   * The earliest tick that a note may have: a tick behind the onset before its own on its channel, so that a switch can
   * stand between them, and a tick behind its own pitch's strike before it, on whatever channel, so that it stays plain
   * which release is whose. What lies on one tick already may stay there.
   */
  earliest(note: Omit<Placed, 'tick'>): Earliest;
  /** Tells where the notes of an onset were put. */
  put(notes: readonly Placed[]): void;
}

interface Last {
  readonly onset: number;
  readonly tick: number;
}

/** Its onsets must come in order. */
export function orderKeeper(): OrderKeeper {
  const channels = new Map<number, Last>();
  const pitches = new Map<number, Last>();
  const behind = (last: Last | undefined, onset: number) =>
    last ? last.tick + (onset > last.onset ? 1 : 0) : 0;
  const remember = (known: Map<number, Last>, key: number, { onset, tick }: Placed) => {
    const last = known.get(key);
    known.set(key, { onset: Math.max(onset, last?.onset ?? 0), tick: Math.max(tick, last?.tick ?? 0) });
  };
  return {
    earliest({ channel, pitch, onset }) {
      const behindNote = behind(channels.get(channel), onset);
      const behindPitch = behind(pitches.get(pitch), onset);
      if (behindNote === 0 && behindPitch === 0) return { tick: 0, behind: 'nothing' };
      return behindNote >= behindPitch
        ? { tick: behindNote, behind: 'note' }
        : { tick: behindPitch, behind: 'pitch' };
    },
    put(notes) {
      for (const note of notes) {
        remember(channels, note.channel, note);
        remember(pitches, note.pitch, note);
      }
    },
  };
}
