import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Reading, readingsOf } from './agreement.js';
import { readAnalysis } from './analysis.js';
import { readKern, type Score } from './kern.js';
import { keyOfText, type ReadKey } from './roman.js';

/**
 * The folder with copies of three public repositories, each under its own licence, of which nothing is part of this
 * project: MarkGotham/When-in-Rome (analyses, CC BY-SA), craigsapp/bach-370-chorales (scores, CC BY-NC-SA) and
 * humdrum-tools/bach-wtc-fugues (scores).
 */
export const corpusFolder = process.env.KEYSLIP_HARMONY_CORPUS;

/** A chorale with its analyses: one, or those of two analysts. */
export interface AnalysedChorale {
  /** In the numbering of Riemenschneider. */
  readonly number: number;
  readonly score: Score;
  readonly analyses: readonly (readonly Reading[])[];
}

/** Chorales by which figures were set, or whose phrases were; the others were not looked at. */
export function wasTunedOn(number: number): boolean {
  return (number >= 201 && number <= 300) || [1, 20, 28, 32, 38, 42, 47, 64, 67, 74].includes(number);
}

/** Where the score's tones lie in the analysed chords for less of their time, bars are counted otherwise in both. */
const aligned = 0.7;

export function chorales(folder: string): readonly AnalysedChorale[] {
  const analyses = join(folder, 'When-in-Rome/Corpus/Early_Choral/Bach,_Johann_Sebastian/Chorales');
  return readdirSync(analyses)
    .sort()
    .flatMap((id): AnalysedChorale[] => {
      const kern = join(folder, 'bach-370-chorales/kern', `chor${id}.krn`);
      if (!existsSync(kern)) return [];
      const score = readKern(readFileSync(kern, 'utf8'));
      const read = ['analysis.txt', 'analysis_BCMH.txt']
        .map((name) => join(analyses, id, name))
        .filter((path) => existsSync(path))
        .map((path) => readingsOf(readAnalysis(readFileSync(path, 'utf8')), score))
        .filter((readings) => inChords(readings, score) >= aligned);
      return read.length > 0 ? [{ number: Number(id), score, analyses: read }] : [];
    });
}

/** The share of a score's tones, by time, that are of the chord which is analysed there. */
function inChords(readings: readonly Reading[], { notes }: Score): number {
  let [all, within] = [0, 0];
  for (const { from, to, chord } of readings)
    for (const note of notes) {
      const time = Math.min(to, note.to) - Math.max(from, note.from);
      if (time <= 0 || !chord) continue;
      const above = (note.pitch - chord.root + 120) % 12;
      const tones = [0, chord.third, chord.fifth, ...(chord.seventh ? [9, 10, 11] : [])];
      all += time;
      if (tones.includes(above)) within += time;
    }
  return all > 0 ? within / all : 0;
}

export interface Fugue {
  readonly name: string;
  readonly score: Score;
  /** As the file says. */
  readonly home: ReadKey;
}

export function fugues(folder: string): readonly Fugue[] {
  const kern = join(folder, 'bach-wtc-fugues/kern');
  return readdirSync(kern)
    .sort()
    .map((name) => {
      const text = readFileSync(join(kern, name), 'utf8');
      const home = keyOfText(/\*([A-Ga-g][#-]*):/u.exec(text)?.[1] ?? '');
      if (!home) throw new Error(`${name}: no key`);
      return { name, score: readKern(text), home };
    });
}
