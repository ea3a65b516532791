// A cue on the desk: which of its values can be moved, what moving them makes of its files, and what of the music is otherwise then.

export { boundsIn } from './bounds.js';
export { type Change, type Changes, changesBetween, type SheetIds, sheetIds } from './changes.js';
export { levelsIn } from './levels.js';
export { type DeskFile, inWords, type Movable, type Moved, type Reach, spelled } from './movable.js';
export { type MovedFiles, movedFiles, type NotMoved, type Refused } from './moving.js';
export { deskPage } from './page/index.js';
export type { BoundGroup, DeskState, Preview, Problem, Written } from './state.js';
