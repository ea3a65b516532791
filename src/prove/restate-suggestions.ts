import { type Duration, tickBefore } from '../midi/index.js';
import { barsIn, type Dependent, wrongFromBars } from './dependents.js';
import type { HeardNote } from './heard-note.js';
import type { Stage } from './part.js';
import { isRestDue, type Rest, restsBefore } from './rests.js';

/** When to send a switch that is already in force, as a map's `restate` says it. */
export interface RestateSetting {
  readonly everyBars?: number;
  readonly afterRest?: Duration;
}

/** What a setting would do for playback from any bar. */
export interface Cure {
  readonly setting: RestateSetting;
  /** How many more switch keys would be struck. */
  readonly moreSwitches: number;
  /** Bars from which notes would still sound wrong. */
  readonly wrongBars: number;
}

const settings: readonly RestateSetting[] = [
  ...[1, 2, 4, 8, 16, 32].map((everyBars) => ({ everyBars })),
  ...[250, 500, 1000, 2000, 4000, 8000].map((ms) => ({ afterRest: { unit: 'ms', ms } as const })),
];

/**
 * The settings that would make playback right from every bar, those with the fewest more switches first. Where none
 * does, those after which fewer bars are wrong, the fewest first. A switch that is sent again stands where every switch
 * stands: the lead before its note, but behind the note before.
 */
export function curesFor(notes: readonly HeardNote[], wrongBars: number, stage: Stage): readonly Cure[] {
  if (wrongBars === 0) return [];
  const rests = restsBefore(notes, stage.clock);
  const tried = settings.map((setting) => tryOut(setting, notes, rests, stage));
  const helpful = tried
    .filter((cure) => cure.wrongBars < wrongBars)
    .sort((a, b) => a.wrongBars - b.wrongBars || a.moreSwitches - b.moreSwitches);
  const whole = helpful.filter((cure) => cure.wrongBars === 0);
  return whole.length > 0 ? whole : helpful;
}

/** What is in an aspect of a channel while a setting is tried out. */
interface InAspect {
  /** The tick of the switch in the file that put it there. */
  readonly sent: number;
  /** The tick at which it was sent last. */
  readonly since: number;
  readonly bar: number;
  readonly onset: number;
}

function tryOut(
  setting: RestateSetting,
  notes: readonly HeardNote[],
  rests: readonly Rest[],
  stage: Stage,
): Cure {
  const { clock, map } = stage;
  const aspects = new Map<string, InAspect>();
  const lastOn = new Map<number, HeardNote>();
  const dependent: Dependent[] = [];
  let moreSwitches = 0;
  const isDue = (before: InAspect, note: HeardNote, bar: number) =>
    before.onset !== note.onset &&
    ((setting.everyBars !== undefined && bar - before.bar >= setting.everyBars) ||
      isRestDue(rests[note.onset], setting.afterRest, clock));
  const now = (
    key: { readonly aspect: string; readonly tick: number },
    note: HeardNote,
    bar: number,
  ): InAspect => {
    const before = aspects.get(`${note.channel} ${key.aspect}`);
    if (before?.sent !== key.tick) return { sent: key.tick, since: key.tick, bar, onset: note.onset };
    if (!isDue(before, note, bar)) return { ...before, onset: note.onset };
    moreSwitches += 1;
    const earliest = (lastOn.get(note.channel)?.tick ?? -1) + 1;
    const since = Math.min(note.tick, Math.max(earliest, tickBefore(clock, note.tick, map.switching.lead)));
    return { sent: key.tick, since, bar, onset: note.onset };
  };
  for (const note of notes) {
    const bar = clock.position(note.tick)?.bar ?? 0;
    const sinces = note.keys.map((key) => {
      const inAspect = now(key, note, bar);
      aspects.set(`${note.channel} ${key.aspect}`, inAspect);
      return inAspect.since;
    });
    lastOn.set(note.channel, note);
    if (note.isSelected && note.hiddenBy === undefined && sinces.length > 0)
      dependent.push({ tick: note.tick, since: Math.min(...sinces) });
  }
  return { setting, moreSwitches, wrongBars: barsIn(wrongFromBars(dependent, clock)) };
}
