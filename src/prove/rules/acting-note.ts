import { firstData } from '../../midi/index.js';
import { keyName, noteSpot } from '../violations.js';
import type { HearingRule } from './rule.js';

/** acting-note: a note of the music lies on a switch key of the map. */
export const actingNotes: HearingRule = ({ acting, stage: { complain, map, events } }) =>
  acting.map((event) => {
    const message = `the note ${keyName(firstData(events, event), map.middleC)} of the music acts as a switch`;
    return complain('acting-note', noteSpot(events, event), message);
  });
