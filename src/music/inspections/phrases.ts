import type { Song } from '../../midi/index.js';
import { tuneByBar, upperLine } from '../balance/index.js';
import type { Section } from './sections.js';

/** Bars that follow each other, and the section that has the tune in them. */
export interface Phrase {
  readonly bars: readonly number[];
  readonly tune?: Section;
}

/** A new phrase of the tune begins a stretch of its own where the stretch before it has so many bars. */
const leastBars = 2;

/**
 * Bars in phrases: where the tune is handed over, where bars are left out between, and where a phrase of the tune begins.
 *
 * @param bars rising
 */
export function phrasesWithTune(
  song: Song,
  sections: readonly Section[],
  bars: readonly number[],
): readonly Phrase[] {
  const lines = sections.map(({ voices, part }) => upperLine(song, voices?.[0] ?? { part }));
  const said = sections.findIndex(({ hasTune }) => hasTune);
  const rows = bars.map((bar) => lines.map((line) => line.bars.get(bar)));
  const tunes = tuneByBar(rows).map((found, at) => (said >= 0 && rows[at]?.[said] ? said : found));
  const phrases: { bars: number[]; tune: number | undefined }[] = [];
  bars.forEach((bar, at) => {
    const tune = tunes[at];
    const last = phrases.at(-1);
    const follows = last?.bars.at(-1) === bar - 1 && last.tune === tune;
    const begins = tune !== undefined && lines[tune]?.begins.has(bar) === true;
    if (last && follows && !(begins && last.bars.length >= leastBars)) last.bars.push(bar);
    else phrases.push({ bars: [bar], tune });
  });
  return phrases.map(({ bars: of, tune }) => {
    const section = tune === undefined ? undefined : sections[tune];
    return { bars: of, ...(section ? { tune: section } : {}) };
  });
}
