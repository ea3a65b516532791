import { keyName } from '../violations.js';
import type { HearingRule } from './rule.js';

/**
 * hidden-articulation: all that the meant articulation needs is set, but so is all that another needs, which needs the
 * same and more. A library plays the more particular of the two. Where two articulations fit of which neither needs all
 * that the other needs, nothing tells which of them a library plays, and the meant one is taken to sound.
 */
export const hiddenArticulations: HearingRule = ({ notes, stage: { complain, map } }) =>
  notes.wrong.flatMap((note) => {
    const { hiddenBy } = notes.judgement(note);
    if (hiddenBy === undefined) return [];
    const message = `the note ${keyName(notes.pitch(note), map.middleC)} sounds as ${hiddenBy}, where ${notes.meant(note)} is meant: what was set for ${hiddenBy} is still in force`;
    return [complain('hidden-articulation', notes.spot(note), message)];
  });
