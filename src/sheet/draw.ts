import type { Diagnostic } from '../diagnostics/index.js';
import { sheetOf } from './collect.js';
import { countsOf } from './counts.js';
import { makeEngraver } from './engrave/index.js';
import { drawnBars, notate } from './notate/index.js';
import { pageOf } from './page/index.js';
import { scoreOf } from './score.js';
import { engravedSystems } from './systems.js';
import type { SheetTask } from './task.js';

/** A drawn sheet, and how much there is on it. */
export interface DrawnSheet {
  /** HTML, or MusicXML. */
  readonly content: string;
  /** What could not be written as it sounds. */
  readonly diagnostics: readonly Diagnostic[];
  readonly parts: number;
  readonly notes: number;
  readonly switches: number;
  readonly bars: number;
  readonly systems?: number;
}

/**
 * Collects, notates, engraves and draws.
 *
 * @param tell told now and then how many systems are drawn
 */
export async function drawSheet(
  task: SheetTask,
  tell?: (done: number, of: number) => void,
): Promise<DrawnSheet> {
  const sheet = sheetOf(task);
  const notation = notate(scoreOf(sheet));
  const engrave = await makeEngraver();
  return {
    content: pageOf(sheet, notation, engravedSystems(notation, engrave, tell)),
    diagnostics: [],
    parts: sheet.parts.length,
    ...countsOf(sheet),
    bars: drawnBars(notation).reduce((sum, { bars }) => sum + bars, 0),
    systems: notation.drawn.to - notation.drawn.from,
  };
}
