import type { Stretch } from './exceptions.js';
import type { Ladder } from './ladder.js';
import type { Learned, Verdict } from './learn.js';
import type { LearnNotes } from './notes.js';
import { type PitchName, sayTests, sayValue } from './spelling.js';
import type { Unrounded } from './unrounded.js';

/** How names and pitches are put where a terminal shows them. */
export interface Words {
  readonly pitchName: PitchName;
  /** Makes a name from a file safe to show. */
  readonly safe: (text: string) => string;
}

/** More exceptions than this are counted only. */
const mostStretches = 20;

/** What was learned, for a terminal. Places are bar.beat. */
export function reportText(learned: Learned, notes: LearnNotes, words: Words): string {
  const about = { learned, notes, words };
  return [
    ...verdictLines(about),
    ...ladderLines(about),
    ...accuracyLines(about),
    ...remarkLines(about),
    ...exceptionLines(about),
  ].join('\n');
}

interface About {
  readonly learned: Learned;
  readonly notes: LearnNotes;
  readonly words: Words;
}

const verdicts: Readonly<Record<Verdict, string>> = {
  ladder: '',
  'by-section':
    'no rule fits: you seem to switch by section. Marks in the music, or a map for each section, say that better than rules',
  'nothing-fits': 'no rule fits: nothing that can be measured at a note tells which articulation it has',
  'one-articulation': 'only one articulation has notes enough to learn from: there is nothing to choose',
  'too-few': 'no articulation has notes enough to learn from',
};

function verdictLines({ learned: { verdict, notes, guess, ladder } }: About): readonly string[] {
  const counted = `${count(notes, 'note')} with an articulation`;
  const head =
    verdict === 'ladder' ? `${counted}: ${count(ladder.length, 'rule')}` : `${counted}: ${verdicts[verdict]}`;
  return guess && notes > 0 ? [head, `  under 100 notes: this is a guess`] : [head];
}

function ladderLines({ learned, notes, words }: About): readonly string[] {
  const { ladder, rules, steadiness } = learned;
  const lines = ladder.flatMap(({ tests, articulation }, index) => {
    const { decides = 0, wrong = 0, unrounded = [] } = rules[index] ?? {};
    const does = `decides ${count(decides, 'note')}, ${wrong} of them otherwise`;
    return [
      `  ${index + 1}. ${sayTests(tests, words.pitchName)} → ${nameOf(notes, articulation, words)}: ${does}`,
      ...unroundedLine(unrounded, words),
    ];
  });
  return steadiness > 0 ? [...lines, `  steadiness: ${Math.round(steadiness * 100)}%`] : lines;
}

function unroundedLine(unrounded: readonly Unrounded[], { pitchName }: Words): readonly string[] {
  const bounds = unrounded.flatMap(({ test, from, below }) =>
    [from, below].flatMap((value, side) => {
      const round = side === 0 ? test.from : test.below;
      if (value === null || round === null || value === round.value) return [];
      // Whole numbers between two of them are the same bound.
      if (test.feature.unit === 'number' && Math.ceil(value) === round.value) return [];
      return [`${test.feature.key} ${sayValue(test.feature, value, pitchName)}`];
    }),
  );
  return bounds.length === 0 ? [] : [`     not rounded: ${bounds.join(', ')}`];
}

function accuracyLines({ learned, notes, words }: About): readonly string[] {
  const { accuracy, heldOut, ladder, singleBound, verdict } = learned;
  if (ladder.length === 0) return [];
  const lines = [
    `right: ${percent(accuracy.ladder)} of the notes (${percent(accuracy.balanced)} with each articulation counting the same)`,
    `  the commonest articulation alone: ${percent(accuracy.commonest)}`,
  ];
  if (singleBound.length > 1)
    lines.push(
      `  the best single bound, ${sayLadder(singleBound, notes, words)}: ${percent(accuracy.singleBound)}`,
    );
  if (heldOut && verdict !== 'one-articulation')
    lines.push(
      `  on notes not learned from (whole ${heldOut.by}s held out): ${percent(heldOut.accuracy)}; commonest ${percent(heldOut.commonest)}, single bound ${percent(heldOut.singleBound)}`,
    );
  return lines;
}

function sayLadder(ladder: Ladder, notes: LearnNotes, words: Words): string {
  return ladder
    .map(({ tests, articulation }) => {
      const name = nameOf(notes, articulation, words);
      return tests.length === 0 ? `else ${name}` : `${sayTests(tests, words.pitchName)} → ${name}`;
    })
    .join(', ');
}

function remarkLines({ learned, notes, words }: About): readonly string[] {
  const { notLearned, shift, forgetful, lengthened } = learned;
  const lines: string[] = [];
  if (shift !== 0)
    lines.push(
      `the switches come a note ${shift > 0 ? 'late' : 'early'}: the rules are for the notes that they were meant for`,
    );
  if (forgetful)
    lines.push('switches seem to have been forgotten: notes long after a switch were believed less');
  for (const { articulation, overlapMs, spreadMs, even } of lengthened) {
    const by = even
      ? `, all by about ${Math.round(overlapMs)} ms (the middle half within ${Math.round(spreadMs)} ms)`
      : '';
    lines.push(
      `${nameOf(notes, articulation, words)}: its notes overlap the next${by}, and hardly any others do. If they were lengthened for legato after they were played, asking for overlap finds only that: learn from the take as it was played`,
    );
  }
  for (const { articulation, notes: number } of notLearned)
    lines.push(
      `${nameOf(notes, articulation, words)}: ${number === 0 ? 'never sounds' : `sounds at ${count(number, 'note')}`}, not learnable`,
    );
  return lines;
}

function exceptionLines({ learned, notes, words }: About): readonly string[] {
  const { stretches, ladder } = learned;
  if (ladder.length < 2 || stretches.length === 0) return [];
  const total = stretches.reduce((sum, { exceptions }) => sum + exceptions.length, 0);
  // What stands in a row is told first: it is what can be put right.
  const ordered = [...stretches].sort((a, b) => b.exceptions.length - a.exceptions.length);
  const shown = ordered.slice(0, mostStretches).sort((a, b) => rowOf(a) - rowOf(b));
  const more = stretches.length - shown.length;
  return [
    `exceptions: ${count(total, 'note')} in ${count(stretches.length, 'place')}`,
    ...shown.map((stretch) => `  ${stretchText(stretch, notes, words)}`),
    ...(more > 0 ? [`  and ${count(more, 'more place', 'more places')}`] : []),
  ];
}

function rowOf({ exceptions }: Stretch): number {
  return exceptions[0]?.row ?? 0;
}

function stretchText({ exceptions, looks }: Stretch, notes: LearnNotes, words: Words): string {
  const [first] = exceptions;
  const last = exceptions.at(-1);
  if (!first || !last) return '';
  const piece = notes.pieces[notes.piece[first.row] ?? 0]?.name ?? '';
  const where = notes.pieces.length > 1 && piece !== '' ? `${words.safe(piece)}, ` : '';
  const places =
    first === last ? placeOf(notes, first.row) : `${placeOf(notes, first.row)}–${placeOf(notes, last.row)}`;
  const says = [...new Set(exceptions.map((one) => nameOf(notes, one.says, words)))].join(', ');
  const many = exceptions.length > 1 ? `, ${exceptions.length} notes` : '';
  const ask = looks === 'forgotten' ? ': switch forgotten?' : looks === 'late' ? ': switch a note late?' : '';
  return `${where}${places}: ${nameOf(notes, first.sounded, words)}, the rules say ${says}${many}${ask}`;
}

/** `12.3.5`: the bar and the beat. */
function placeOf(notes: LearnNotes, row: number): string {
  return `${notes.bar[row] ?? 0}.${Math.round((notes.beat[row] ?? 0) * 100) / 100}`;
}

function nameOf(notes: LearnNotes, articulation: number, { safe }: Words): string {
  return safe(notes.articulations[articulation] ?? '');
}

function percent(share: number): string {
  return `${(share * 100).toFixed(1)} %`;
}

function count(number: number, one: string, many = `${one}s`): string {
  return `${number} ${number === 1 ? one : many}`;
}
