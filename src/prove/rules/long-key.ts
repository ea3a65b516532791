import { tickAfter } from '../../midi/index.js';
import type { Hearing } from '../playback.js';
import { keyName, ticksText } from '../violations.js';
import { foundAt, type HearingRule } from './rule.js';

/**
 * long-key: a latching key that is held longer than the map's tap (a tick more is allowed for rounding, and a tap is
 * never shorter than a tick), or a momentary key that is still down at a note which must sound without it, or behind
 * the last note that needs it.
 */
export const longKeys: HearingRule = (hearing) => {
  const { presses, stage } = hearing;
  return foundAt(presses, (press) => {
    const isHeld = stage.library.heldKeys.has(presses.key(press));
    const found = isHeld ? longHold(press, hearing) : longTap(press, hearing);
    if (!found) return undefined;
    const name = `the switch key ${keyName(presses.key(press), stage.map.middleC)}`;
    return stage.complain('long-key', { ...presses.spot(press), tick: found.tick }, `${name} ${found.what}`);
  });
};

interface Found {
  readonly tick: number;
  readonly what: string;
}

function longTap(press: number, { presses, stage: { clock, map } }: Hearing): Found | undefined {
  const tick = presses.tick(press);
  const offTick = presses.offTick(press);
  if (offTick === undefined) return undefined;
  const latest = Math.max(tick + 1, tickAfter(clock, tick, map.switching.tap)) + 1;
  if (offTick <= latest) return undefined;
  return { tick, what: `is held for ${ticksText(offTick - tick)}, longer than the map's tap` };
}

function longHold(press: number, { presses, notes, stage: { map } }: Hearing): Found | undefined {
  const tick = presses.tick(press);
  const unwantedBy = presses.unwantedBy(press);
  if (unwantedBy >= 0)
    return {
      tick: notes.tick(unwantedBy),
      what: `is still down at the note ${keyName(notes.pitch(unwantedBy), map.middleC)}, which is meant as ${notes.meant(unwantedBy)}`,
    };
  const neededUntil = presses.neededUntil(press);
  if (neededUntil === undefined) return { tick, what: 'is held for no note' };
  const offTick = presses.offTick(press);
  if (offTick === undefined || offTick <= neededUntil) return undefined;
  return {
    tick: offTick,
    what: `is let go ${ticksText(offTick - neededUntil)} behind the last note that needs it`,
  };
}
