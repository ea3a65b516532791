import { type Diagnostic, diagnostic } from '../diagnostics/index.js';
import { sheetOf } from './collect.js';
import { countsOf } from './counts.js';
import { type Engraver, sharedEngraver } from './engrave/index.js';
import { drawnBars, notate } from './notate/index.js';
import { pageOf } from './page/index.js';
import type { SheetSound } from './player/index.js';
import { scoreOf } from './score.js';
import { engravedSystems } from './systems.js';
import type { SheetTask } from './task.js';

/** A drawn sheet, and how much there is on it. */
export interface DrawnSheet {
  /** HTML, or MusicXML; empty where there is an error. */
  readonly content: string;
  /** What could not be written as it sounds. */
  readonly diagnostics: readonly Diagnostic[];
  readonly parts: number;
  readonly notes: number;
  readonly switches: number;
  readonly bars: number;
  readonly systems?: number;
}

/** What else there is to drawing a sheet. */
export interface DrawOptions {
  /** Told now and then how many systems are drawn. */
  readonly tell?: (done: number, of: number) => void;
  /** What the page has to be heard, if anything. */
  readonly sound?: SheetSound | undefined;
  /** What makes the engraver. */
  readonly make?: () => Promise<Engraver>;
}

/**
 * Collects, notates, engraves and draws.
 *
 * Errors: no-library where the engraving library is not installed.
 */
export async function drawSheet(
  task: SheetTask,
  { tell, sound, make = sharedEngraver }: DrawOptions = {},
): Promise<DrawnSheet> {
  const sheet = sheetOf(task);
  const notation = notate(scoreOf(sheet));
  const engrave = await engraverIfThere(make);
  if (!engrave)
    return { content: '', diagnostics: [noEngraver(task)], parts: 0, notes: 0, switches: 0, bars: 0 };
  return {
    content: pageOf(sheet, notation, engravedSystems(notation, engrave, tell), sound),
    diagnostics: [],
    parts: sheet.parts.length,
    ...countsOf(sheet),
    bars: drawnBars(notation).reduce((sum, { bars }) => sum + bars, 0),
    systems: notation.drawn.to - notation.drawn.from,
  };
}

async function engraverIfThere(make: () => Promise<Engraver>): Promise<Engraver | undefined> {
  try {
    return await make();
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ERR_MODULE_NOT_FOUND') return undefined;
    throw error;
  }
}

function noEngraver({ song }: SheetTask): Diagnostic {
  return diagnostic(
    'no-library',
    { kind: 'file', file: song.file },
    'cannot be drawn: the package verovio, which engraves the music, is not installed',
    'npm install verovio; or -o SCORE.musicxml, which needs no engraver',
  );
}
