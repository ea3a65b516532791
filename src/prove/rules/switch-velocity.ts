import { keyName } from '../violations.js';
import type { HearingRule } from './rule.js';

/** switch-velocity: a switch note is struck with another velocity than the map says. */
export const switchVelocities: HearingRule = ({ presses, stage: { complain, map } }) =>
  presses.flatMap(({ key, channel, tick, velocity }) => {
    const { velocity: right } = map.switching;
    if (velocity === right) return [];
    const message = `the switch key ${keyName(key, map.middleC)} is struck with velocity ${velocity}, not ${right}`;
    return [complain('switch-velocity', { tick, channel, pitch: key }, message)];
  });
