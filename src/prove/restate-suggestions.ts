import { type Duration, tickBefore } from '../midi/index.js';
import { CoveredBars } from './bars.js';
import { Demands } from './demands.js';
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
  const played = { notes, bars, rests: new Rests(notes, stage.clock), demands: new Demands(notes, stage) };
  const tried = settings.map((setting): Cure => {
    const trial = new Trial(setting, played, stage);
    trial.play();
    return { setting, moreSwitches: trial.moreSwitches, wrongBars: trial.wrong.count };
  });
  const helpful = tried
    .filter((cure) => cure.wrongBars < wrongBars)
    .sort((a, b) => a.wrongBars - b.wrongBars || a.moreSwitches - b.moreSwitches);
  const whole = helpful.filter((cure) => cure.wrongBars === 0);
  return whole.length > 0 ? whole : helpful;
}

/** What settings are tried out on. */
interface Played {
  readonly notes: HeardNotes;
  /** The bar of each. */
  readonly bars: Int32Array;
  readonly rests: Rests;
  readonly demands: Demands;
}

/** Plays the notes of a part, in order, with switches that are sent again as a setting says. */
class Trial {
  readonly #setting: RestateSetting;
  readonly #played: Played;
  readonly #stage: Stage;
  /** For each onset 1 if the rest before it is one after which switches are sent again. */
  readonly #due: Uint8Array;
  // For each aspect of each channel (see `Demands`):
  /** The tick of the switch in the file. */
  readonly #sent: Float64Array;
  /** The tick at which it was sent last, and its bar. */
  readonly #since: Float64Array;
  readonly #sinceBar: Int32Array;
  /** The bar of the note before which that was. */
  readonly #bar: Int32Array;
  /** The onset of the last note that needed it. */
  readonly #onset: Int32Array;
  /** How many more switch keys were struck. */
  moreSwitches = 0;
  /** The bars from which notes sound wrong. */
  readonly wrong = new CoveredBars();

  constructor(setting: RestateSetting, played: Played, stage: Stage) {
    this.#setting = setting;
    this.#played = played;
    this.#stage = stage;
    this.#due = played.rests.due(setting.afterRest);
    const places = 16 * stage.library.aspects.length;
    this.#sent = new Float64Array(places).fill(-1);
    this.#bar = new Int32Array(places);
    this.#since = new Float64Array(places);
    this.#sinceBar = new Int32Array(places);
    this.#onset = new Int32Array(places);
  }

  play(): void {
    const { demands, notes, bars } = this.#played;
    let since = Number.POSITIVE_INFINITY;
    let sinceBar = 0;
    for (let demand = 0; demand < demands.length; demand++) {
      const note = demands.note(demand);
      const bar = bars[note] ?? 0;
      this.#need(demand, note, bar);
      const place = demands.place(demand);
      if ((this.#since[place] ?? 0) < since) {
        since = this.#since[place] ?? 0;
        sinceBar = this.#sinceBar[place] ?? 0;
      }
      if (demands.note(demand + 1) === note) continue;
      if (sinceBar < bar && notes.isRight(note)) this.wrong.add(sinceBar + 1, bar);
      since = Number.POSITIVE_INFINITY;
    }
  }

  /** A note needs a switch. */
  #need(demand: number, note: number, bar: number): void {
    const { demands, notes } = this.#played;
    const place = demands.place(demand);
    const sent = demands.sent(demand);
    const onset = notes.onset(note);
    if (this.#sent[place] !== sent) {
      this.#sent[place] = sent;
      this.#send(place, sent, bar);
    } else if (this.#onset[place] !== onset && this.#isDue(place, onset, bar)) {
      this.moreSwitches += 1;
      this.#send(place, this.#again(demand, note), bar);
    }
    this.#onset[place] = onset;
  }

  #isDue(place: number, onset: number, bar: number): boolean {
    const { everyBars } = this.#setting;
    const isOld = everyBars !== undefined && bar - (this.#bar[place] ?? 0) >= everyBars;
    return isOld || this.#due[onset] === 1;
  }

  /** The tick at which a switch is sent again before a note. */
  #again(demand: number, note: number): number {
    const { clock, map } = this.#stage;
    const tick = this.#played.notes.tick(note);
    const earliest = this.#played.demands.previous(demand) + 1;
    return Math.min(tick, Math.max(earliest, tickBefore(clock, tick, map.switching.lead)));
  }

  #send(place: number, tick: number, bar: number): void {
    this.#since[place] = tick;
    this.#sinceBar[place] = this.#stage.clock.position(tick)?.bar ?? 0;
    this.#bar[place] = bar;
  }
}
