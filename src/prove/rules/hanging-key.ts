import { keyName, type Violation } from '../violations.js';
import type { HearingRule } from './rule.js';

/** hanging-key: a switch key that is never released, or is struck again while it is down. */
export const hangingKeys: HearingRule = ({ presses, stage: { complain, map } }) =>
  presses.flatMap(({ key, channel, tick, offTick, isRestruck }): readonly Violation[] => {
    const name = `the switch key ${keyName(key, map.middleC)}`;
    const spot = { tick, channel, pitch: key };
    return [
      ...(isRestruck ? [complain('hanging-key', spot, `${name} is struck again before it is released`)] : []),
      ...(offTick === undefined ? [complain('hanging-key', spot, `${name} is never released`)] : []),
    ];
  });
