import { after } from './after.js';
import { all } from './all.js';
import { any } from './any.js';
import { chord } from './chord.js';
import { controller } from './controller.js';
import { held } from './held.js';
import { heldShare } from './held-share.js';
import { leap } from './leap.js';
import { not } from './not.js';
import { overlapsNext } from './overlaps-next.js';
import { overlapsPrevious } from './overlaps-previous.js';
import { pace } from './pace.js';
import { pedal } from './pedal.js';
import { pitch } from './pitch.js';
import { repeatsNext } from './repeats-next.js';
import { repeatsPrevious } from './repeats-previous.js';
import { restAfter } from './rest-after.js';
import { restBefore } from './rest-before.js';
import { run } from './run.js';
import { velocity } from './velocity.js';

/** The kinds that ask something of the note itself, in the order of the schemas. */
export const measuredKinds = [
  held,
  pace,
  heldShare,
  restBefore,
  restAfter,
  overlapsNext,
  overlapsPrevious,
  velocity,
  pitch,
  leap,
  repeatsPrevious,
  repeatsNext,
  after,
  run,
  chord,
  controller,
  pedal,
] as const;

/** The kinds that are made of other conditions. */
export const combinedKinds = [any, all, not] as const;
