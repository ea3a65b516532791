import { type Duration, tickBefore } from '../midi/index.js';
import { CoveredBars } from './bars.js';
import type { HeardNotes } from './heard-notes.js';
import type { Stage } from './part.js';
import { Rests } from './rests.js';

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
 *
 * @param bars the bar of each note
 * @param wrongBars from how many bars playback is wrong now
 */
export function curesFor(
  notes: HeardNotes,
  bars: Int32Array,
  wrongBars: number,
  stage: Stage,
): readonly Cure[] {
  if (wrongBars === 0) return [];
  const rests = new Rests(notes, stage.clock);
  const tried = settings.map((setting): Cure => {
    const trial = new Trial(setting, notes, rests, stage);
    for (let note = 0; note < notes.length; note++) trial.play(note, bars[note] ?? 0);
    return { setting, moreSwitches: trial.moreSwitches, wrongBars: trial.wrong.count };
  });
  const helpful = tried
    .filter((cure) => cure.wrongBars < wrongBars)
    .sort((a, b) => a.wrongBars - b.wrongBars || a.moreSwitches - b.moreSwitches);
  const whole = helpful.filter((cure) => cure.wrongBars === 0);
  return whole.length > 0 ? whole : helpful;
}

/** What a key switch in an aspect of a channel is while a setting is tried out. */
interface KeySwitch {
  /** The tick of the switch in the file. */
  readonly sent: number;
  /** The tick at which it was sent last, and its bar. */
  since: number;
  sinceBar: number;
  /** The bar of the note before which that was, and the onset of the last note that needed it. */
  bar: number;
  onset: number;
}

/** Plays the notes of a part, in order, with switches that are sent again as a setting says. */
class Trial {
  readonly #setting: RestateSetting;
  readonly #notes: HeardNotes;
  readonly #stage: Stage;
  /** For each onset 1 if the rest before it is one after which switches are sent again. */
  readonly #due: Uint8Array;
  /** By channel and aspect. */
  readonly #keys: (KeySwitch | undefined)[] = [];
  /** The tick of the last note of each channel. */
  readonly #lastTick: number[] = [];
  /** How many more switch keys were struck. */
  moreSwitches = 0;
  /** The bars from which notes sound wrong. */
  readonly wrong = new CoveredBars();

  constructor(setting: RestateSetting, notes: HeardNotes, rests: Rests, stage: Stage) {
    this.#setting = setting;
    this.#notes = notes;
    this.#stage = stage;
    this.#due = rests.due(setting.afterRest);
  }

  play(note: number, bar: number): void {
    const notes = this.#notes;
    const { length } = notes.keyedAspects(note);
    let earliest: KeySwitch | undefined;
    for (let at = 0; at < length; at++) {
      const one = this.#now(note, at, bar);
      if (!earliest || one.since < earliest.since) earliest = one;
    }
    this.#lastTick[notes.channel(note)] = notes.tick(note);
    if (earliest && notes.isRight(note) && earliest.sinceBar < bar)
      this.wrong.add(earliest.sinceBar + 1, bar);
  }

  /** One of the key switches that a note needs, as it is when the note is struck. */
  #now(note: number, at: number, bar: number): KeySwitch {
    const notes = this.#notes;
    const aspect = notes.keyedAspects(note)[at] ?? 0;
    const place = notes.channel(note) * this.#stage.library.aspects.length + aspect;
    const sent = notes.strikeTick(note, at);
    const onset = notes.onset(note);
    const before = this.#keys[place];
    if (before?.sent !== sent) {
      const fresh = { sent, since: sent, sinceBar: this.#barOf(sent), bar, onset };
      this.#keys[place] = fresh;
      return fresh;
    }
    if (before.onset !== onset && this.#isDue(before, onset, bar)) this.#sendAgain(before, note, bar);
    before.onset = onset;
    return before;
  }

  #isDue(before: KeySwitch, onset: number, bar: number): boolean {
    const { everyBars } = this.#setting;
    return (everyBars !== undefined && bar - before.bar >= everyBars) || this.#due[onset] === 1;
  }

  #sendAgain(one: KeySwitch, note: number, bar: number): void {
    const { clock, map } = this.#stage;
    const tick = this.#notes.tick(note);
    const earliest = (this.#lastTick[this.#notes.channel(note)] ?? -1) + 1;
    this.moreSwitches += 1;
    one.since = Math.min(tick, Math.max(earliest, tickBefore(clock, tick, map.switching.lead)));
    one.sinceBar = this.#barOf(one.since);
    one.bar = bar;
  }

  #barOf(tick: number): number {
    return this.#stage.clock.position(tick)?.bar ?? 0;
  }
}
