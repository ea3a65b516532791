// The ways in which what is heard can be wrong, one file each.
import { actingNotes } from './acting-note.js';
import { hangingKeys } from './hanging-key.js';
import { heardSwitches } from './heard-switch.js';
import { hiddenArticulations } from './hidden-articulation.js';
import { longKeys } from './long-key.js';
import { missingRestates } from './missing-restate.js';
import { otherSwitches } from './other-switch.js';
import { releasesWithoutKey } from './release-without-key.js';
import type { HearingRule } from './rule.js';
import { switchVelocities } from './switch-velocity.js';
import { touchedNotes } from './touched-note.js';
import { wrongArticulations } from './wrong-articulation.js';

export const hearingRules: readonly HearingRule[] = [
  wrongArticulations,
  hiddenArticulations,
  heardSwitches,
  actingNotes,
  touchedNotes,
  otherSwitches,
  missingRestates,
  hangingKeys,
  longKeys,
  releasesWithoutKey,
  switchVelocities,
];
