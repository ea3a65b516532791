// The small player of a page that has its sound in it: what the page tells it, and what it decides without a browser.
export { type Command, commandOf } from './commands.js';
export { type BarTimes, barAt, beginOf, type HeardNote, type PlayerData, placeText } from './data.js';
export { type Anchor, barAnchors, type LinePlace, lineAt, ordered } from './line.js';
export { playerData, type SheetSound } from './made.js';
export { type Marked, marked, noMarks, rangeOf } from './marks.js';
