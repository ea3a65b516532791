// What maps and cues are built from: a judged document, and how its values are read.

export { parseDuration } from './duration.js';
export { strayPath } from './path.js';
export { parsePitch } from './pitch.js';
export { placeOfName, type Source, sourceOf } from './source.js';
export { duration, entries, field, listOf, number, pitch, present, text, word } from './values.js';
