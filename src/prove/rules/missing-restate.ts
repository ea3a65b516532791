import type { Element } from '../effects.js';
import type { HeardNote } from '../heard-note.js';
import type { Hearing } from '../playback.js';
import { isRestDue, restsBefore } from '../rests.js';
import { switchesBetweenNotes } from '../switch-actions.js';
import { keyName, type Violation } from '../violations.js';
import type { HearingRule } from './rule.js';

/**
 * missing-restate: a switch that is in force is due again by the map's `restate`, at the first note of an onset on its
 * channel, and was not sent. No note sounds wrong for it, but playback from the middle does.
 * Checked only where notes stand where they were played.
 */
export const missingRestates: HearingRule = (hearing) => {
  const { everyBars, afterRest } = hearing.stage.map.switching.restate;
  if (!hearing.stage.isAsPlayed || (everyBars === undefined && afterRest === undefined)) return [];
  const { clock, complain, map, library } = hearing.stage;
  const rests = restsBefore(hearing.notes, clock);
  const { before } = switchesBetweenNotes(hearing.actions);
  const inForce = new Map<string, { readonly content: string | undefined; readonly bar: number }>();

  const isFirst = firstOfOnsets();
  const missingAt = (note: HeardNote): readonly Violation[] => {
    const isAsked = isFirst(note);
    const bar = clock.position(note.tick)?.bar ?? 0;
    const isResting = isRestDue(rests[note.onset], afterRest, clock);
    const sent = new Set(before.get(note)?.map(({ what }) => what));
    const isMissing = ({ aspect, content }: Element) => {
      const last = inForce.get(`${note.channel} ${aspect}`);
      const isSent = sent.has(content ?? '');
      const isOld = last !== undefined && everyBars !== undefined && bar - last.bar >= everyBars;
      const isDue = isAsked && last?.content === content && (isResting || isOld);
      if (isSent || isDue || last?.content !== content)
        inForce.set(`${note.channel} ${aspect}`, { content, bar });
      return isAsked && note.isSelected && isDue && !isSent;
    };
    const elements = library.sounds
      .get(note.meant ?? '')
      ?.elements.filter((element) => isSwitch(element, hearing));
    const missing = elements?.filter(isMissing).map(({ content }) => content) ?? [];
    if (missing.length === 0) return [];
    const { tick, channel, pitch } = note;
    const message = `before the note ${keyName(pitch, map.middleC)} the map sends its switches again, but ${missing.join(', ')} was not sent`;
    return [complain('missing-restate', { tick, channel, pitch }, message)];
  };
  return hearing.notes.flatMap(missingAt);
};

/** Which controllers and programs are switches is known only where there was an input. */
function isSwitch({ by }: Element, { isCompared }: Hearing): boolean {
  return by === 'key' || (isCompared && (by === 'controller' || by === 'program'));
}

/** Tells of notes in order whether each is the first of its onset on its channel; the others may be sent switches too. */
function firstOfOnsets(): (note: HeardNote) => boolean {
  const last = new Map<number, number>();
  return ({ channel, onset }) => {
    const isFirst = last.get(channel) !== onset;
    last.set(channel, onset);
    return isFirst;
  };
}
