import { keyName, type Violation } from '../violations.js';
import type { HearingRule } from './rule.js';

/** hanging-key: a switch key that is never released, or is struck again while it is down. */
export const hangingKeys: HearingRule = ({ presses, stage: { complain, map } }) => {
  const found: Violation[] = [];
  const tell = (press: number, what: string) => {
    const name = `the switch key ${keyName(presses.key(press), map.middleC)}`;
    found.push(complain('hanging-key', presses.spot(press), `${name} ${what}`));
  };
  for (let press = 0; press < presses.length; press++) {
    if (presses.isRestruck(press)) tell(press, 'is struck again before it is released');
    if (presses.offTick(press) === undefined) tell(press, 'is never released');
  }
  return found;
};
