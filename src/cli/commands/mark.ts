import { diagnostic, escapeText, type Outcome, plural, spellPitch } from '../../diagnostics/index.js';
import { isScore, markSong, type Performance, playScore, type Unmatched } from '../../score/index.js';
import { type CommonOptions, limits, loadSong } from '../context.js';
import { readInput } from '../files/read.js';
import type { Io } from '../io.js';
import { deliverFile, newFilePath } from '../new-file.js';

export interface MarkOptions extends CommonOptions {
  readonly score: string;
  readonly output?: string;
}

/** More lines than this of what was not matched are counted only. */
const maxTold = 40;

/** `keyslip mark`: writes a score's marks into a take of it, and lists what score and take do not share. */
export async function markCommand(take: string, options: MarkOptions, io: Io): Promise<number> {
  const output = newFilePath(options.output, [take, options.score]);
  const song = await loadSong(take, options, io);
  const score = await loadScore(options.score, options, io);
  const read = [...song.diagnostics, ...score.diagnostics];
  const marked = song.value && score.value ? markSong(song.value, score.value) : undefined;
  const { bytes, edits = [], unmatched = [], found = 0, written = 0, diagnostics = [] } = marked ?? {};
  const lines = [
    `${found} of ${plural(written, 'written note')} found, ${plural(edits.length, 'mark')} written`,
    ...unmatchedLines(unmatched),
  ];
  const json = { score: options.score, found, written, marks: edits.length, unmatched };
  const made = { input: take, output, bytes, diagnostics: [...read, ...diagnostics], lines, json };
  return deliverFile(made, options, io);
}

/** Reads a score as it is played; score-kind for a file that is none. */
async function loadScore(file: string, options: CommonOptions, io: Io): Promise<Outcome<Performance>> {
  const maxBytes = options.maxMidi ?? limits.midi;
  const { value: bytes, diagnostics: found } = await readInput(file, maxBytes, io);
  if (!bytes) return { value: undefined, diagnostics: found };
  if (!isScore(bytes)) {
    const place = { kind: 'file', file } as const;
    const hint = '--score names what is written; the take stands before it';
    const none = diagnostic('score-kind', place, 'the file is neither MusicXML nor MEI', hint);
    return { value: undefined, diagnostics: [none] };
  }
  const { performance, diagnostics } = playScore(bytes, file, {}, { maxBytes });
  return { value: performance, diagnostics };
}

/** Everything that score and take do not share, by bars of the score, parts of a bar on one line. */
function unmatchedLines(unmatched: readonly Unmatched[]): readonly string[] {
  if (unmatched.length === 0) return [];
  const byPlace = new Map<string, string[]>();
  for (const one of unmatched) {
    const pass = one.pass > 1 ? `, time ${one.pass}` : '';
    const part = one.part === '' ? '' : `, ${escapeText(one.part)}`;
    const place = `bar ${escapeText(one.bar)}${pass}${part}`;
    byPlace.set(place, [...(byPlace.get(place) ?? []), saidOf(one)]);
  }
  const lines = [...byPlace].map(([place, said]) => `${place}: ${said.join(', ')}`);
  const more = lines.length - maxTold;
  return [
    'not matched:',
    ...lines.slice(0, maxTold).map((line) => `  ${line}`),
    ...(more > 0 ? [`  … and ${plural(more, 'more place')}: --json lists all`] : []),
  ];
}

/** Middle C is C4. */
function saidOf(one: Unmatched): string {
  switch (one.kind) {
    case 'bar':
      return 'not played';
    case 'missing':
      return `${spellPitch(one.pitch, 4)} is missing`;
    case 'extra':
      return `${spellPitch(one.pitch, 4)} is not written`;
    case 'wrong':
      return `${spellPitch(one.played, 4)} in place of ${spellPitch(one.pitch, 4)}`;
    case 'mark':
      return `${escapeText(one.text)} has no note`;
  }
}
