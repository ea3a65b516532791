import { isStrike } from '../pairs.js';
import { keyName } from '../violations.js';
import type { HearingRule } from './rule.js';

/** acting-note: a note of the music lies on a switch key of the map. */
export const actingNotes: HearingRule = ({ acting, stage: { complain, map, track } }) =>
  acting.flatMap((index) => {
    const event = track.events[index];
    if (!event || !isStrike(event)) return [];
    const { channel, noteNumber: pitch } = event;
    const message = `the note ${keyName(pitch, map.middleC)} of the music acts as a switch`;
    return [complain('acting-note', { tick: track.ticks[index] ?? 0, channel, pitch }, message)];
  });
