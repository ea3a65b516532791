import { isSameMeter } from '../measures.js';
import type { Notation } from '../types.js';
import type { WrittenScore } from '../written.js';
import { changedDefinition, scoreDefinition } from './definitions.js';
import { measureText } from './measure.js';
import { element } from './xml.js';

/** The MEI texts of a score, and the written tick of each element with an id. */
export function writeScore(score: WrittenScore): Pick<Notation, 'excerpt' | 'positions'> {
  const positions = new Map<string, number>();
  const { measures, systems } = score;
  const texts = measures.map((_, index) => measureText(score, index, positions));
  return {
    positions,
    excerpt(from, to) {
      const first = systems.indexOf(from);
      const next = systems.indexOf(to);
      const before = first > 0 ? 1 : 0;
      // A bar on either side, in systems of their own, so that ties go on and clefs and keys are as they were.
      const mei = document(score, texts, first - before, next < 0 ? measures.length : next + 1, first);
      return { mei, before };
    },
  };
}

/** @param breakAt a bar before which a system begins in any case */
function document(
  score: WrittenScore,
  texts: readonly string[],
  from: number,
  to: number,
  breakAt?: number,
): string {
  const { measures, systems, fifths, staves } = score;
  const lines: string[] = [];
  for (let index = from; index < to; index++) {
    const changed = index === from ? '' : changeAt(score, index);
    if (changed !== '') lines.push(changed);
    if (index === from || index === breakAt || systems[index] !== systems[index - 1]) lines.push('<pb/>');
    lines.push(texts[index] ?? '');
  }
  const meter = measures[from]?.meter ?? { count: 4, unit: 4 };
  return around(scoreDefinition(staves, meter, fifths[from] ?? 0), lines);
}

function changeAt({ measures, fifths, staves }: WrittenScore, index: number): string {
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
