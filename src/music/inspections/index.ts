// What is told of a recording without deciding anything: each inspection looks, tells and remarks.
import { balance } from './balance.js';
import { type Brief, briefOf } from './brief.js';
import { harmony } from './harmony.js';
import { type Inspected, type Look, lookWith } from './inspection.js';
import { mechanical } from './mechanical.js';
import type { Music } from './music.js';
import { register } from './register.js';
import { voicing } from './voicing.js';

export { balanceByBar } from './balance.js';
export type { BarBalance } from './bar-balance.js';
export { briefJson, briefText } from './brief.js';
export type { Inspected, InspectionRemark } from './inspection.js';
export { type Music, musicOf } from './music.js';
export { firstProgram, type Section, sectionOf } from './sections.js';
export { sectionsOfJobs, type VoiceJob, voiceOf } from './voices.js';

/** All inspections, in the order in which they are told. */
const looks: readonly Look[] = [
  lookWith(mechanical),
  lookWith(harmony),
  lookWith(voicing),
  lookWith(register),
  lookWith(balance),
];

/** What there is to say on one screen. */
export function inspectBriefly(music: Music): Brief {
  return briefOf(
    music,
    looks.slice(1).map((look) => look(music)),
  );
}

/** Lets every inspection look at the music. */
export function inspect(music: Music): readonly Inspected[] {
  return looks.map((look) => look(music));
}
