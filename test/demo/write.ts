import { writeFileSync } from 'node:fs';
import { demoRecording } from './tune.js';

/** Writes the demo recording where it is kept; a test compares the two. */
writeFileSync('maps/demo/last-boat.mid', demoRecording());
