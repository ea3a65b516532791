import type { SoundingNote } from '../harmony/index.js';

/** What sounds at one time. */
export interface Sounding {
  /** The sounding pitches in short: the same for the same set, and for no other. See `pitchesOfKey`. */
  key(): string;
  /** The highest sounding pitch that is at most a pitch; −1 where there is none. */
  highestUpTo(pitch: number): number;
  /** The lowest sounding pitch; −1 in silence. */
  lowest(): number;
  /** The parts that sound a pitch, each with the index of the note by which it does. */
  partsAt(pitch: number): ReadonlyMap<number, { readonly note: number }>;
  /** All parts that sound, each with the number of its notes. */
  parts(): ReadonlyMap<number, number>;
}

/** MIDI notes are 0–127. */
const pitchCount = 128;
const none: ReadonlyMap<number, Held> = new Map();

/**
 * Goes through the music from one change of what sounds to the next. Notes without length do not sound. Sorts the
 * notes, and is linear in them beyond that.
 *
 * @param cuts further ticks at which a step ends, rising
 * @param visit is told of each step in which something sounds; what it is given is good during the call only
 */
export function sweep(
  notes: readonly SoundingNote[],
  cuts: readonly number[],
  visit: (tick: number, endTick: number, sounding: Sounding) => void,
): void {
  const begins = (index: number | undefined) => notes[index ?? -1]?.tick ?? Number.POSITIVE_INFINITY;
  const ends = (index: number | undefined) => notes[index ?? -1]?.endTick ?? Number.POSITIVE_INFINITY;
  const lasting = notes.flatMap(({ tick, endTick }, index) => (endTick > tick ? [index] : []));
  const starting = Uint32Array.from(lasting).sort((a, b) => begins(a) - begins(b) || a - b);
  const stopping = Uint32Array.from(lasting).sort((a, b) => ends(a) - ends(b) || a - b);
  const state = soundingState(notes);
  let [start, stop, cut] = [0, 0, 0];
  let at = Number.NEGATIVE_INFINITY;
  while (stop < stopping.length) {
    const next = Math.min(
      begins(starting[start]),
      ends(stopping[stop]),
      cuts[cut] ?? Number.POSITIVE_INFINITY,
    );
    if (next > at && state.sounding.parts().size > 0) visit(at, next, state.sounding);
    at = next;
    for (; ends(stopping[stop]) <= at; stop++) state.remove(stopping[stop] ?? 0);
    for (; begins(starting[start]) <= at; start++) state.add(starting[start] ?? 0);
    while ((cuts[cut] ?? Number.POSITIVE_INFINITY) <= at) cut += 1;
  }
}

/** The pitches of a key, low to high. */
export function pitchesOfKey(key: string): readonly number[] {
  return key.split(',').flatMap((word, index) => {
    const bits = Number(word);
    const pitches: number[] = [];
    for (let bit = 0; bit < 32; bit++) if (bits & (1 << bit)) pitches.push(32 * index + bit);
    return pitches;
  });
}

/** The notes of one part on one pitch. */
interface Held {
  count: number;
  note: number;
}

function soundingState(notes: readonly SoundingNote[]) {
  const held = Array.from({ length: pitchCount }, () => new Map<number, Held>());
  const parts = new Map<number, number>();
  /** A bit for each pitch. */
  const words = new Int32Array(pitchCount / 32);
  const sounds = (pitch: number) => (held[pitch]?.size ?? 0) > 0;
  const flip = (pitch: number) => {
    words[pitch >> 5] = (words[pitch >> 5] ?? 0) ^ (1 << (pitch & 31));
  };
  const sounding: Sounding = {
    key: () => `${words[0]},${words[1]},${words[2]},${words[3]}`,
    highestUpTo(pitch) {
      let at = Math.min(pitch, pitchCount - 1);
      while (at >= 0 && !sounds(at)) at -= 1;
      return at;
    },
    lowest: () => held.findIndex(({ size }) => size > 0),
    partsAt: (pitch) => held[pitch] ?? none,
    parts: () => parts,
  };
  return {
    sounding,
    add(index: number) {
      const { pitch, part } = notes[index] ?? { pitch: -1, part: -1 };
      const at = held[pitch];
      if (!at) return;
      const before = at.get(part);
      if (at.size === 0) flip(pitch);
      at.set(part, { count: (before?.count ?? 0) + 1, note: index });
      parts.set(part, (parts.get(part) ?? 0) + 1);
    },
    remove(index: number) {
      const { pitch, part } = notes[index] ?? { pitch: -1, part: -1 };
      const at = held[pitch];
      const known = at?.get(part);
      if (!at || !known) return;
      if (known.count > 1) known.count -= 1;
      else at.delete(part);
      if (at.size === 0) flip(pitch);
      const left = (parts.get(part) ?? 1) - 1;
      if (left > 0) parts.set(part, left);
      else parts.delete(part);
    },
  };
}
