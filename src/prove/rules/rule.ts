import type { Hearing } from '../playback.js';
import type { Violation } from '../violations.js';

/** Looks for one kind of violation in what was heard of a part. */
export type HearingRule = (hearing: Hearing) => readonly Violation[];
