import { barsOf } from '../bars.js';
import { type Content, contentText } from '../content.js';
import type { Need } from '../library.js';
import type { Hearing } from '../playback.js';
import { Rests } from '../rests.js';
import { SwitchesBetweenNotes } from '../switch-actions.js';
import { keyName } from '../violations.js';
import { foundAt, type HearingRule } from './rule.js';

/**
 * missing-restate: a switch that is in force is due again by the map's `restate`, at the first note of an onset on its
 * channel, and was not sent. No note sounds wrong for it, but playback from the middle does.
 * Checked only where notes stand where they were played.
 */
export const missingRestates: HearingRule = (hearing) => {
  const { notes, stage } = hearing;
  const { everyBars, afterRest } = stage.map.switching.restate;
  if (!stage.isAsPlayed || (everyBars === undefined && afterRest === undefined)) return [];
  const restates = new Restates(hearing);
  return foundAt(notes, (note) => {
    const missing = restates.missingAt(note);
    if (missing.length === 0) return undefined;
    const message = `before the note ${keyName(notes.pitch(note), stage.map.middleC)} the map sends its switches again, but ${missing.map(contentText).join(', ')} was not sent`;
    return stage.complain('missing-restate', notes.spot(note), message);
  });
};

interface InForce {
  content: Content;
  bar: number;
}

/** Follows which switches are in force, and since which bar. */
class Restates {
  readonly #hearing: Hearing;
  readonly #between: SwitchesBetweenNotes;
  readonly #bars: Int32Array;
  /** For each onset 1 if switches are due again after the rest before it. */
  readonly #due: Uint8Array;
  /** By channel and aspect. */
  readonly #inForce: (InForce | undefined)[] = [];
  /** The onset of the last note of each channel. */
  readonly #lastOnset: number[] = [];

  constructor(hearing: Hearing) {
    const { notes, actions, stage } = hearing;
    this.#hearing = hearing;
    this.#between = new SwitchesBetweenNotes(actions, notes.length);
    this.#bars = barsOf(notes, stage.clock);
    this.#due = new Rests(notes, stage.clock).due(stage.map.switching.restate.afterRest);
  }

  /** What is due again at a note, and was not sent. Is asked for all notes in order. */
  missingAt(note: number): readonly Content[] {
    const { notes } = this.#hearing;
    const channel = notes.channel(note);
    // The first note of its onset on its channel; the others may be sent switches too.
    const isAsked = this.#lastOnset[channel] !== notes.onset(note);
    this.#lastOnset[channel] = notes.onset(note);
    const missing: Content[] = [];
    for (const need of notes.sound(note)?.needs ?? [])
      if (this.#isSwitch(need) && this.#isMissing(need, note, isAsked)) missing.push(need.content);
    return missing;
  }

  #isMissing({ aspect, content }: Need, note: number, isAsked: boolean): boolean {
    const { notes, stage } = this.#hearing;
    const { everyBars } = stage.map.switching.restate;
    const place = notes.channel(note) * stage.library.aspects.length + aspect;
    const bar = this.#bars[note] ?? 0;
    const last = this.#inForce[place];
    const isSent = this.#isSent(content, note);
    const isOld = last !== undefined && everyBars !== undefined && bar - last.bar >= everyBars;
    const isDue = isAsked && last?.content === content && (this.#due[notes.onset(note)] === 1 || isOld);
    if (isSent || isDue || last?.content !== content) this.#inForce[place] = { content, bar };
    return isAsked && isDue && !isSent && notes.judgement(note).isSelected;
  }

  #isSent(content: Content, note: number): boolean {
    const { actions } = this.#hearing;
    const between = this.#between;
    for (let action = between.first(note); action >= 0; action = between.following(action))
      if (actions.content(action) === content) return true;
    return false;
  }

  /** Which controllers and programs are switches is known only where there was an input. */
  #isSwitch({ by }: Need): boolean {
    return by === 'key' || (this.#hearing.isCompared && (by === 'controller' || by === 'program'));
  }
}
