import { firstData } from '../../midi/index.js';
import { keyName, noteSpot } from '../violations.js';
import type { HearingRule } from './rule.js';

/** release-without-key: an inserted release of a switch key that is not down. */
export const releasesWithoutKey: HearingRule = ({ strays, stage: { complain, map, events } }) =>
  strays.map((event) => {
    const message = `the switch key ${keyName(firstData(events, event), map.middleC)} is released, but was not struck`;
    return complain('release-without-key', noteSpot(events, event), message);
  });
