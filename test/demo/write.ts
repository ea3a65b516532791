import { writeFileSync } from 'node:fs';
import { demoRhythm } from './rhythm.js';
import { demoScore } from './score.js';
import { demoRecording } from './tune.js';

/** Writes the demo recordings where they are kept; tests compare the two. */
writeFileSync('maps/demo/last-boat.mid', demoRecording());
writeFileSync('maps/demo/skerry-point.mid', demoScore());
writeFileSync('maps/demo/gangway.mid', demoRhythm());
