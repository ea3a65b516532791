import { keyName } from '../violations.js';
import { foundAt, type HearingRule } from './rule.js';

/** switch-velocity: a switch note is struck with another velocity than the map says. */
export const switchVelocities: HearingRule = ({ presses, stage: { complain, map } }) =>
  foundAt(presses, (press) => {
    const { velocity: right } = map.switching;
    const velocity = presses.velocity(press);
    if (velocity === right) return undefined;
    const message = `the switch key ${keyName(presses.key(press), map.middleC)} is struck with velocity ${velocity}, not ${right}`;
    return complain('switch-velocity', presses.spot(press), message);
  });
