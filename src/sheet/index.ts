// A page to look at: what is shown, the notation, the engraving, the page.

export { sheetOf } from './collect.js';
export { copyistSheet } from './copyist-sheet.js';
export { countsOf } from './counts.js';
export { type DrawnSheet, drawSheet } from './draw.js';
export { engraversFor, sharedEngraver } from './engrave/index.js';
export { noSheet } from './no-sheet.js';
export { notate } from './notate/index.js';
export { pageOf } from './page/index.js';
export { noteId } from './part.js';
export type { SheetSound } from './player/index.js';
export { scoreOf } from './score.js';
export type { SheetTask, Shown } from './task.js';
