import { isMap, isNode, isScalar, type Pair, parseDocument } from 'yaml';
import { findExamples, type LearnedExample } from './examples.js';
import type { Learned } from './learn.js';
import type { LearnNotes } from './notes.js';
import { type PitchName, spellWhen } from './spelling.js';

/** A sketch cannot be written into: it is no YAML mapping, or it is one in braces. */
export class NotASketch extends Error {}

/** Keys of a map that stand behind its rules. */
const afterRules = ['dynamics', 'examples'];

/**
 * The sketch with the rules that were learned, the steadiness and examples from real notes. All else is kept, byte for byte.
 * Rules, steadiness and examples that the sketch had are replaced.
 *
 * @throws NotASketch
 */
export function mapText(
  sketch: string,
  learned: Learned,
  notes: LearnNotes,
  pitchName: PitchName,
  examples: readonly LearnedExample[] = findExamples(learned, notes),
): string {
  const newline = sketch.includes('\r\n') ? '\r\n' : '\n';
  const sections: readonly (readonly [string, readonly string[]])[] = [
    ['steadiness', learned.steadiness > 0 ? [`steadiness: ${Math.round(learned.steadiness * 100)}%`] : []],
    ['rules', rulesLines(learned, notes, pitchName)],
    ['examples', examplesLines(examples, notes, pitchName)],
  ];
  return sections.reduce((text, [key, lines]) => withSection(text, key, lines, newline), sketch);
}

function rulesLines({ ladder, rules }: Learned, notes: LearnNotes, pitchName: PitchName): readonly string[] {
  if (ladder.length === 0) return [];
  const lines = ladder.flatMap(({ tests, articulation }, index) => {
    const { decides = 0, wrong = 0 } = rules[index] ?? {};
    const use = `use: ${notes.articulations[articulation] ?? ''} # ${decides} notes, ${wrong} of them otherwise`;
    const when = spellWhen(tests, pitchName);
    return when === '' ? [`  - ${use}`] : [`  - when: ${when}`, `    ${use}`];
  });
  return ['rules:', ...lines];
}

function examplesLines(
  examples: readonly LearnedExample[],
  notes: LearnNotes,
  pitchName: PitchName,
): readonly string[] {
  if (examples.length === 0) return [];
  const lines = examples.flatMap((example) => {
    const played = example.notes.map(
      ({ pitch, heldMs, paceMs, velocity }) =>
        `{ pitch: ${pitchName(pitch)}, held: ${heldMs}ms, pace: ${paceMs}ms, velocity: ${velocity} }`,
    );
    const expect = example.expect.map((articulation) => notes.articulations[articulation] ?? '').join(', ');
    return [
      '  - notes:',
      ...played.map((note) => `      - ${note}`),
      `    expect: [${expect}]`,
      ...(example.bpm === undefined ? [] : [`    bpm: ${example.bpm}`]),
    ];
  });
  return ['examples:', ...lines];
}

/** The text with a section's lines in the place of its key, or in a new place where it has none. */
function withSection(text: string, key: string, lines: readonly string[], newline: string): string {
  const document = parseDocument(text, { keepSourceTokens: true });
  const { contents } = document;
  if (!isMap(contents) || contents.flow || document.errors.length > 0)
    throw new NotASketch('a sketch is a YAML file of keys and values, without braces around it');
  const pairs = contents.items;
  const block = lines.map((line) => line + newline).join('');
  const old = pairs.find((pair) => nameOf(pair) === key);
  if (old) {
    const { from, to } = extent(text, old);
    return text.slice(0, from) + block + text.slice(to);
  }
  if (block === '') return text;
  const next = key === 'examples' ? undefined : pairs.find((pair) => afterOf(key).includes(nameOf(pair)));
  const at = next ? startOf(text, next) : text.length;
  const gap = at > 0 && !text.slice(0, at).endsWith('\n') ? newline : '';
  const blankBefore = next ? '' : newline;
  return text.slice(0, at) + gap + blankBefore + block + (next ? newline : '') + text.slice(at);
}

function afterOf(key: string): readonly string[] {
  return key === 'steadiness' ? ['rules', ...afterRules] : afterRules;
}

function nameOf({ key }: Pair): string {
  return isScalar(key) ? String(key.value) : '';
}

/** Where a key begins, with the comment lines that stand right above it. */
function startOf(text: string, pair: Pair): number {
  let at = isNode(pair.key) ? (pair.key.range?.[0] ?? 0) : 0;
  for (;;) {
    const line = text.lastIndexOf('\n', at - 2) + 1;
    if (at === 0 || line >= at || !text.slice(line, at).trimStart().startsWith('#')) return at;
    at = line;
  }
}

/** From a key to the end of the line on which its value ends. */
function extent(text: string, pair: Pair): { readonly from: number; readonly to: number } {
  const from = isNode(pair.key) ? (pair.key.range?.[0] ?? 0) : 0;
  const end = isNode(pair.value) ? (pair.value.range?.[1] ?? from) : from;
  const line = text.indexOf('\n', Math.max(from, end - 1));
  return { from, to: line < 0 ? text.length : line + 1 };
}
