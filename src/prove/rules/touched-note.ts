import { lastTick, tickBefore } from '../../midi/index.js';
import type { Hearing } from '../playback.js';
import { keyName, ticksText } from '../violations.js';
import { foundAt, type HearingRule } from './rule.js';

/**
 * touched-note: a switch that can reach a note which was struck before it. A switch stands
 * - on a later tick than the last note of its channel before it, since events of one tick may change their order;
 * - not between the notes of one onset that sound alike;
 * - and, while a note sounds, no earlier than the map's lead before the note that it is for (a tick more is allowed for
 *   rounding). A momentary key may be let go at any time when no note that needs it sounds.
 * A switch that is sent again because the music wrote over it may stand behind that event, wherever it is.
 */
export const touchedNotes: HearingRule = (hearing) => {
  const { actions, stage } = hearing;
  return foundAt(actions, (action) => {
    const reason = reasonAgainst(action, hearing);
    return reason === undefined
      ? undefined
      : stage.complain('touched-note', actions.spot(action), `${nameOf(action, hearing)} ${reason}`);
  });
};

function reasonAgainst(action: number, hearing: Hearing): string | undefined {
  const { actions, notes, stage } = hearing;
  const tick = actions.tick(action);
  if (actions.kind(action) === 'release') {
    const isReaching = actions.isSounding(action) && stage.library.heldKeys.has(actions.key(action) ?? -1);
    // A note that is never released sounds to the end of the track, and its key is let go there.
    if (!isReaching || tick >= lastTick(stage.events)) return undefined;
  }
  const between = actions.isRepair(action) ? undefined : reasonBetween(action, hearing);
  if (between !== undefined || !actions.isSounding(action)) return between;
  const next = actions.next(action);
  if (next < 0) return 'reaches the last notes while they sound';
  const noteTick = notes.tick(next);
  const earliest = tickBefore(stage.clock, noteTick, stage.map.switching.lead) - 1;
  return tick < earliest
    ? `comes ${ticksText(noteTick - tick)} before its note, while another sounds`
    : undefined;
}

/** What is against a switch between the notes before and behind it. */
function reasonBetween(action: number, { actions, notes, stage: { map } }: Hearing): string | undefined {
  const previous = actions.previous(action);
  const next = actions.next(action);
  if (previous < 0) return undefined;
  if (notes.tick(previous) >= actions.tick(action))
    return `stands on the tick of the note ${keyName(notes.pitch(previous), map.middleC)}, behind it`;
  const isInside = next >= 0 && notes.onset(previous) === notes.onset(next);
  return isInside && notes.areMeantAlike(previous, next)
    ? 'stands between notes that are struck together'
    : undefined;
}

function nameOf(action: number, { actions, stage: { map } }: Hearing): string {
  const kind = actions.kind(action);
  const name = `the switch key ${keyName(actions.key(action) ?? 0, map.middleC)}`;
  if (kind === 'release') return `letting go of ${name}`;
  return kind === 'strike' ? name : `the switching ${kind}`;
}
