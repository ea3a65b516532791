import { keyName } from '../violations.js';
import { foundAt, type HearingRule } from './rule.js';

/** heard-switch: a switch key on which the library also plays, reported once for each key, at its first strike. */
export const heardSwitches: HearingRule = ({ presses, stage: { complain, map } }) => {
  const reported = new Set<number>();
  return foundAt(presses, (press) => {
    const key = presses.key(press);
    if (key < map.range.low || key > map.range.high || reported.has(key)) return undefined;
    reported.add(key);
    const message = `the switch key ${keyName(key, map.middleC)} lies where the library plays, and is heard`;
    return complain('heard-switch', presses.spot(press), message);
  });
};
