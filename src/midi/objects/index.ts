// TO BE DELETED, with `events` and `ticks` of a track, when the last stage reads columns: events and notes as objects.

export { objectsOf } from './decode.js';
export { columnsOf } from './encode.js';
export { isSystemOnObject, type MessageEvent, type MidiEvent } from './event.js';
export { type Track, trackOf, trackOfObjects } from './track.js';
