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
  const { clock } = stage;
  const played = {
    notes,
    bars: Int32Array.from(notes, ({ tick }) => clock.position(tick)?.bar ?? 0),
    rests: restsBefore(notes, clock),
  };
  const tried = settings.map((setting) => tryOut(setting, played, stage));
  const helpful = tried
    .filter((cure) => cure.wrongBars < wrongBars)
    .sort((a, b) => a.wrongBars - b.wrongBars || a.moreSwitches - b.moreSwitches);
  const whole = helpful.filter((cure) => cure.wrongBars === 0);
  return whole.length > 0 ? whole : helpful;
}

/** Notes, the bar of each, and the silence before each onset. */
interface Played {
  readonly notes: readonly HeardNote[];
  readonly bars: Int32Array;
  readonly rests: readonly Rest[];
}

/** What is in an aspect of a channel while a setting is tried out. */
interface InAspect {
  /** The tick of the switch in the file that put it there. */
  sent: number;
  /** The tick at which it was sent last, and its bar. */
  since: number;
  sinceBar: number;
  /** The bar of the note before which that was, and the onset of the last note that needed it. */
  bar: number;
  onset: number;
}

function tryOut(setting: RestateSetting, { notes, bars, rests }: Played, stage: Stage): Cure {
  const { clock, map } = stage;
  const channels = new Map<number, Map<string, InAspect>>();
  const lastOn = new Map<number, HeardNote>();
  const dependent: Dependent[] = [];
  let moreSwitches = 0;
  const barOf = (tick: number) => clock.position(tick)?.bar ?? 0;
  const isDue = (before: InAspect, note: HeardNote, bar: number) =>
    before.onset !== note.onset &&
    ((setting.everyBars !== undefined && bar - before.bar >= setting.everyBars) ||
      isRestDue(rests[note.onset], setting.afterRest, clock));
  const sendAgain = (one: InAspect, note: HeardNote, bar: number) => {
    moreSwitches += 1;
    const earliest = (lastOn.get(note.channel)?.tick ?? -1) + 1;
    one.since = Math.min(note.tick, Math.max(earliest, tickBefore(clock, note.tick, map.switching.lead)));
    one.sinceBar = barOf(one.since);
    one.bar = bar;
  };
  /** What is in the aspect of a key when a note needs it. */
  const now = (aspects: Map<string, InAspect>, { aspect, tick }: Key, note: HeardNote, bar: number) => {
    const { onset } = note;
    const before = aspects.get(aspect);
    if (before?.sent !== tick) {
      const fresh = { sent: tick, since: tick, sinceBar: barOf(tick), bar, onset };
      aspects.set(aspect, fresh);
      return fresh;
    }
    if (isDue(before, note, bar)) sendAgain(before, note, bar);
    before.onset = onset;
    return before;
  };
  notes.forEach((note, index) => {
    const { channel, tick } = note;
    const bar = bars[index] ?? 0;
    const aspects = channels.get(channel) ?? new Map<string, InAspect>();
    if (aspects.size === 0) channels.set(channel, aspects);
    let earliest: InAspect | undefined;
    for (const key of note.keys) {
      const one = now(aspects, key, note, bar);
      if (!earliest || one.since < earliest.since) earliest = one;
    }
    lastOn.set(channel, note);
    const isMeant = note.isSelected && note.hiddenBy === undefined;
    if (isMeant && earliest && earliest.sinceBar < bar) dependent.push({ tick, since: earliest.since });
  });
  return { setting, moreSwitches, wrongBars: barsIn(wrongFromBars(dependent, clock)) };
}

type Key = HeardNote['keys'][number];
