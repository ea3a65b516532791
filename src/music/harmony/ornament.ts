/** A note between two ticks. */
interface Note {
  readonly tick: number;
  readonly endTick: number;
  readonly pitch: number;
}

/** A second: what ornaments are reached and left by, in semitones. */
const step = 2;

/**
 * Which notes pass or turn: those between beats, no longer than half a quarter note (`unit` ticks), that are reached by
 * step and left by step, in whatever part (passing and neighbouring tones, common practice).
 */
export function ornaments(
  notes: readonly Note[],
  unit: number,
  isBeat: (tick: number) => boolean,
): readonly boolean[] {
  const ending = byTick(notes, ({ endTick }) => endTick);
  const beginning = byTick(notes, ({ tick }) => tick);
  return notes.map(({ tick, endTick, pitch }) => {
    if (endTick - tick > unit / 2 || isBeat(tick)) return false;
    return hasStep(ending.get(tick), pitch) && hasStep(beginning.get(endTick), pitch);
  });
}

function byTick(
  notes: readonly Note[],
  tickOf: (note: Note) => number,
): ReadonlyMap<number, ReadonlySet<number>> {
  const pitches = new Map<number, Set<number>>();
  for (const note of notes) {
    const tick = tickOf(note);
    const known = pitches.get(tick);
    if (known) known.add(note.pitch);
    else pitches.set(tick, new Set([note.pitch]));
  }
  return pitches;
}

function hasStep(pitches: ReadonlySet<number> | undefined, pitch: number): boolean {
  for (let by = 1; by <= step; by++) if (pitches?.has(pitch - by) || pitches?.has(pitch + by)) return true;
  return false;
}
