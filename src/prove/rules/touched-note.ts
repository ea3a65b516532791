import { tickBefore } from '../../midi/index.js';
import type { Stage } from '../part.js';
import type { Action } from '../switch-actions.js';
import { keyName, ticksText, type Violation } from '../violations.js';
import type { HearingRule } from './rule.js';

/**
 * touched-note: a switch that can reach a note which was struck before it. A switch stands
 * - on a later tick than the last note of its channel before it, since events of one tick may change their order;
 * - not between the notes of one onset that sound alike;
 * - and, while a note sounds, no earlier than the map's lead before the note that it is for (a tick more is allowed for
 *   rounding). A momentary key may be let go at any time when no note that needs it sounds.
 * A switch that is sent again because the music wrote over it may stand behind that event, wherever it is.
 */
export const touchedNotes: HearingRule = ({ actions, stage }) =>
  actions.flatMap((action): readonly Violation[] => {
    const reason = reasonAgainst(action, stage);
    if (!reason) return [];
    const { tick, channel, key } = action;
    return [
      stage.complain('touched-note', { tick, channel, pitch: key }, `${nameOf(action, stage)} ${reason}`),
    ];
  });

function reasonAgainst(action: Action, { clock, map, library, track }: Stage): string | undefined {
  const { kind, key, tick, previous, next, isSounding, isRepair } = action;
  if (kind === 'release') {
    if (!(isSounding && library.heldKeys.has(key ?? -1))) return undefined;
    // A note that is never released sounds to the end of the track, and its key is let go there.
    if (tick >= (track.ticks.at(-1) ?? 0)) return undefined;
  }
  if (!isRepair && previous && previous.tick >= tick)
    return `stands on the tick of the note ${keyName(previous.pitch, map.middleC)}, behind it`;
  if (!isRepair && previous && next && previous.onset === next.onset && previous.meant === next.meant)
    return 'stands between notes that are struck together';
  if (!isSounding) return undefined;
  if (!next) return 'reaches the last notes while they sound';
  const earliest = tickBefore(clock, next.tick, map.switching.lead) - 1;
  return tick < earliest
    ? `comes ${ticksText(next.tick - tick)} before its note, while another sounds`
    : undefined;
}

function nameOf({ kind, key }: Action, { map }: Stage): string {
  if (kind === 'release') return `letting go of the switch key ${keyName(key ?? 0, map.middleC)}`;
  return kind === 'strike' ? `the switch key ${keyName(key ?? 0, map.middleC)}` : `the switching ${kind}`;
}
