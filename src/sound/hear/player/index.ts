// The small player of a page that carries its own sound: what the page tells it, and what it decides without a browser.
export { type Command, commandOf } from './commands.js';
export { type BarTimes, barAt, type PlayerData, placeText } from './data.js';
export { type Anchor, type LinePlace, lineAt, ordered } from './line.js';
export { type Marked, marked, noMarks, rangeOf } from './marks.js';
export { playerMarkup } from './markup.js';
