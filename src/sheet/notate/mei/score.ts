import { isSameMeter } from '../measures.js';
import type { Notation } from '../types.js';
import type { WrittenScore } from '../written.js';
import { changedDefinition, type StaffDefinition, scoreDefinition } from './definitions.js';
import { type MeasureText, measureText } from './measure.js';
import { element } from './xml.js';

/** What a score is written as. */
export interface ScoreText extends Pick<Notation, 'excerpt' | 'positions'> {
  /** The MEI text of all of it, with all staves. */
  readonly whole: () => string;
}

/** The MEI texts of a score, and the written tick of each element with an id. */
export function writeScore(score: WrittenScore): ScoreText {
  const positions = new Map<string, number>();
  const { measures, systems, shown } = score;
  const texts = measures.map((_, index) => measureText(score, index, positions));
  const all = score.staves.map((_, part) => part);
  return {
    positions,
    whole: () => document(score, texts, { parts: all, from: 0, to: measures.length, first: 0 }),
    excerpt(from, to) {
      const first = systems.indexOf(from);
      const next = systems.indexOf(to);
      const before = first > 0 ? 1 : 0;
      const parts = shown[from] ?? all;
      // A bar on either side, in systems of their own, so that ties go on and clefs and keys are as they were.
      const end = next < 0 ? measures.length : next + 1;
      return { mei: document(score, texts, { parts, from: first - before, to: end, first }), before };
    },
  };
}

/** What of a score a document has. */
interface Contents {
  /** The indices of parts. */
  readonly parts: readonly number[];
  /** Bars: from the first up to the last, which is left out. */
  readonly from: number;
  readonly to: number;
  /** A bar before which a system begins in any case. */
  readonly first: number;
}

function document(
  score: WrittenScore,
  texts: readonly MeasureText[],
  { parts, from, to, first }: Contents,
): string {
  const { measures, systems, fifths } = score;
  const staves = parts.flatMap((part): StaffDefinition[] => {
    const staff = score.staves[part];
    return staff ? [{ part, label: staff.label, clef: staff.clef }] : [];
  });
  const lines: string[] = [];
  for (let index = from; index < to; index++) {
    const changed = index === from ? '' : changeAt(score, staves, index);
    if (changed !== '') lines.push(changed);
    if (index === from || index === first || systems[index] !== systems[index - 1]) lines.push('<pb/>');
    lines.push(texts[index]?.(parts) ?? '');
  }
  const meter = measures[from]?.meter ?? { count: 4, unit: 4 };
  return around(scoreDefinition(staves, meter, fifths[from] ?? 0), lines);
}

function changeAt(
  { measures, fifths }: WrittenScore,
  staves: readonly StaffDefinition[],
  index: number,
): string {
  const meter = measures[index]?.meter;
  const before = measures[index - 1]?.meter;
  const isSame = meter && before && isSameMeter(meter, before);
  const key = fifths[index] === fifths[index - 1] ? undefined : fifths[index];
  return changedDefinition(staves, isSame ? undefined : meter, key);
}

function around(definition: string, lines: readonly string[]): string {
  const section = element('section', {}, `\n${lines.join('\n')}\n`);
  const music = `<music><body><mdiv><score>\n${definition}\n${section}\n</score></mdiv></body></music>`;
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="5.0">',
    '<meiHead><fileDesc><titleStmt><title/></titleStmt><pubStmt/></fileDesc></meiHead>',
    music,
    '</mei>\n',
  ].join('\n');
}
