import { writeFileSync } from 'node:fs';
import { demoScore } from './score.js';
import { demoRecording } from './tune.js';

/** Writes the demo recordings where they are kept; tests compare the two. */
writeFileSync('maps/demo/last-boat.mid', demoRecording());
writeFileSync('maps/demo/skerry-point.mid', demoScore());
