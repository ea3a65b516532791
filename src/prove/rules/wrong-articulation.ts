import { keyName } from '../violations.js';
import type { HearingRule } from './rule.js';

/** wrong-articulation: the articulation that is meant is not among those that the library's state selects. */
export const wrongArticulations: HearingRule = ({ notes, stage: { complain, map } }) =>
  notes.flatMap(({ tick, channel, pitch, meant, isSelected, sounds }) => {
    if (meant === undefined || isSelected) return [];
    const heard =
      sounds[0] === undefined ? 'sounds with no articulation of the map' : `sounds as ${sounds[0]}`;
    const message = `the note ${keyName(pitch, map.middleC)} ${heard}, where ${meant} is meant`;
    return [complain('wrong-articulation', { tick, channel, pitch }, message)];
  });
