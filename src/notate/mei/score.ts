import type { Clock } from '../../time/clock.js';
import type { Clef } from '../clef.js';
import type { Measure } from '../measures.js';
import type { StaffBar } from '../staff.js';
import { changedDefinition, scoreDefinition } from './definitions.js';
import { measureText } from './measure.js';
import { element } from './xml.js';

/** A staff, ready to be written. */
export interface WrittenStaff {
  readonly label: string;
  readonly clef: Clef;
  /** Texts by the id of the note that they stand at. */
  readonly words: ReadonlyMap<string, string>;
  readonly bars: readonly StaffBar[];
}

/** A score, ready to be written. Arrays by bar are as long as `measures`. */
export interface WrittenScore {
  readonly clock: Clock;
  readonly measures: readonly Measure[];
  readonly systems: readonly number[];
  readonly fifths: readonly number[];
  readonly staves: readonly WrittenStaff[];
  readonly chords: readonly { readonly tick: number; readonly text: string }[];
}

/** The MEI text of a score, and the written tick of each element with an id. */
export function writeScore(score: WrittenScore): {
  readonly mei: string;
  readonly positions: ReadonlyMap<string, number>;
} {
  const positions = new Map<string, number>();
  const { measures, systems, fifths, staves } = score;
  const [first] = measures;
  const lines: string[] = [];
  let chord = 0;
  measures.forEach((measure, index) => {
    const before = measures[index - 1];
    const key = fifths[index] ?? 0;
    if (before) {
      const isSame = before.meter.count === measure.meter.count && before.meter.unit === measure.meter.unit;
      const changed = changedDefinition(
        staves,
        isSame ? undefined : measure.meter,
        key === fifths[index - 1] ? undefined : key,
      );
      if (changed !== '') lines.push(changed);
    }
    if (systems[index] !== systems[index - 1]) lines.push('<pb/>');
    const chords: WrittenScore['chords'][number][] = [];
    const isLast = index === measures.length - 1;
    for (
      let next = score.chords[chord];
      next && (next.tick < measure.endTick || isLast);
      next = score.chords[chord]
    ) {
      chords.push(next);
      chord += 1;
    }
    lines.push(measureText({ score, measure, index, fifths: key, chords, positions }));
  });
  const definition = scoreDefinition(staves, first?.meter ?? { count: 4, unit: 4 }, fifths[0] ?? 0);
  return { mei: document(definition, lines), positions };
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
