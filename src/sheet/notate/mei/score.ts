import { isSameMeter } from '../measures.js';
import type { WrittenScore } from '../written.js';
import { changedDefinition, scoreDefinition } from './definitions.js';
import { measureText } from './measure.js';
import { element } from './xml.js';

/** The MEI text of a score, and the written tick of each element with an id. */
export function writeScore(score: WrittenScore): {
  readonly mei: string;
  readonly positions: ReadonlyMap<string, number>;
} {
  const positions = new Map<string, number>();
  const { measures, systems, fifths, staves } = score;
  const lines: string[] = [];
  measures.forEach((_, index) => {
    const changed = index === 0 ? '' : changeAt(score, index);
    if (changed !== '') lines.push(changed);
    if (systems[index] !== systems[index - 1]) lines.push('<pb/>');
    lines.push(measureText(score, index, positions));
  });
  const meter = measures[0]?.meter ?? { count: 4, unit: 4 };
  return { mei: document(scoreDefinition(staves, meter, fifths[0] ?? 0), lines), positions };
}

function changeAt({ measures, fifths, staves }: WrittenScore, index: number): string {
  const meter = measures[index]?.meter;
  const before = measures[index - 1]?.meter;
  const isSame = meter && before && isSameMeter(meter, before);
  const key = fifths[index] === fifths[index - 1] ? undefined : fifths[index];
  return changedDefinition(staves, isSame ? undefined : meter, key);
}

function document(definition: string, lines: readonly string[]): string {
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
