import { isNote } from '../pairs.js';
import { keyName, type Violation } from '../violations.js';
import type { HearingRule } from './rule.js';

/** release-without-key: an inserted release of a switch key that is not down. */
export const releasesWithoutKey: HearingRule = ({ strays, stage: { complain, map, track } }) =>
  strays.flatMap((index): readonly Violation[] => {
    const event = track.events[index];
    if (!event || !isNote(event)) return [];
    const { channel, noteNumber: pitch } = event;
    const message = `the switch key ${keyName(pitch, map.middleC)} is released, but was not struck`;
    return [complain('release-without-key', { tick: track.ticks[index] ?? 0, channel, pitch }, message)];
  });
