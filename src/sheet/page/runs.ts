import type { SheetPart } from '../types.js';

/** Notes that follow each other with one articulation, without a switch between them. */
export interface Run {
  readonly articulation: string;
  /** Where its first note begins, as it was played. */
  readonly from: number;
  /** Where the last of its notes ends, or the next run begins. */
  readonly to: number;
  /** The switch that is sent for its first note: where, and what; absent where it is set already. */
  readonly switched?: { readonly tick: number; readonly sent: string };
}

/** A part's articulations one after the other, in order. */
export function runsOf({ notes, switches }: Pick<SheetPart, 'notes' | 'switches'>): readonly Run[] {
  const sent = new Map(
    switches.flatMap(({ layer, tick, articulation, sent: text }) =>
      layer === undefined ? [[`${tick} ${articulation}`, text] as const] : [],
    ),
  );
  const runs: (Omit<Run, 'to'> & { to: number })[] = [];
  for (const { articulation, tick, endTick, switchTick } of notes) {
    const open = runs.at(-1);
    const text = switchTick === null ? undefined : sent.get(`${switchTick} ${articulation}`);
    const isSameSwitch = text === undefined || open?.switched?.tick === switchTick;
    if (open?.articulation === articulation && isSameSwitch) {
      open.to = Math.max(open.to, endTick);
      continue;
    }
    if (open) open.to = Math.min(open.to, tick);
    const switched =
      switchTick === null || text === undefined ? {} : { switched: { tick: switchTick, sent: text } };
    runs.push({ articulation, from: tick, to: endTick, ...switched });
  }
  return runs;
}
