import { keyName } from '../violations.js';
import type { HearingRule } from './rule.js';

/** wrong-articulation: the articulation that is meant is not among those that the library's state selects. */
export const wrongArticulations: HearingRule = ({ notes, stage: { complain, map } }) =>
  notes.wrong.flatMap((note) => {
    const { isSelected, instead } = notes.judgement(note);
    if (!notes.isMeant(note) || isSelected) return [];
    const heard = instead === undefined ? 'sounds with no articulation of the map' : `sounds as ${instead}`;
    const message = `the note ${keyName(notes.pitch(note), map.middleC)} ${heard}, where ${notes.meant(note)} is meant`;
    return [complain('wrong-articulation', notes.spot(note), message)];
  });
