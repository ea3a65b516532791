import { tickAfter } from '../../midi/index.js';
import type { Press } from '../key-presses.js';
import type { Stage } from '../part.js';
import { keyName, ticksText, type Violation } from '../violations.js';
import type { HearingRule } from './rule.js';

/**
 * long-key: a latching key that is held longer than the map's tap (a tick more is allowed for rounding, and a tap is
 * never shorter than a tick), or a momentary key that is still down at a note which must sound without it, or behind
 * the last note that needs it.
 */
export const longKeys: HearingRule = ({ presses, stage }) =>
  presses.flatMap((press): readonly Violation[] => {
    const found = stage.library.heldKeys.has(press.key) ? longHold(press, stage) : longTap(press, stage);
    if (!found) return [];
    const { key, channel } = press;
    const name = `the switch key ${keyName(key, stage.map.middleC)}`;
    return [stage.complain('long-key', { tick: found.tick, channel, pitch: key }, `${name} ${found.what}`)];
  });

interface Found {
  readonly tick: number;
  readonly what: string;
}

function longTap({ tick, offTick }: Press, { clock, map }: Stage): Found | undefined {
  const latest = Math.max(tick + 1, tickAfter(clock, tick, map.switching.tap)) + 1;
  if (offTick === undefined || offTick <= latest) return undefined;
  return { tick, what: `is held for ${ticksText(offTick - tick)}, longer than the map's tap` };
}

function longHold({ tick, offTick, neededUntil, unwantedBy }: Press, { map }: Stage): Found | undefined {
  if (unwantedBy) {
    const { pitch, meant } = unwantedBy;
    return {
      tick: unwantedBy.tick,
      what: `is still down at the note ${keyName(pitch, map.middleC)}, which is meant as ${meant ?? ''}`,
    };
  }
  if (neededUntil === undefined) return { tick, what: 'is held for no note' };
  if (offTick === undefined || offTick <= neededUntil) return undefined;
  return {
    tick: offTick,
    what: `is let go ${ticksText(offTick - neededUntil)} behind the last note that needs it`,
  };
}
