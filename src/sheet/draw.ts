import { sheetOf } from './collect.js';
import { countsOf } from './counts.js';
import { makeEngraver } from './engrave/index.js';
import { notate } from './notate/index.js';
import { pageOf } from './page/index.js';
import { scoreOf } from './score.js';
import type { SheetTask } from './task.js';

/** A drawn sheet, and how much there is on it. */
export interface DrawnSheet {
  /** HTML. */
  readonly page: string;
  readonly parts: number;
  readonly notes: number;
  readonly switches: number;
  readonly bars: number;
  readonly systems: number;
}

/** Collects, notates, engraves and draws. */
export async function drawSheet(task: SheetTask): Promise<DrawnSheet> {
  const sheet = sheetOf(task);
  const notation = notate(scoreOf(sheet));
  const engrave = await makeEngraver();
  const systems = engrave(notation.mei);
  return {
    page: pageOf(sheet, notation, systems),
    parts: sheet.parts.length,
    ...countsOf(sheet),
    bars: notation.bars.length,
    systems: systems.length,
  };
}
