import { headsOf } from '../accidentals.js';
import { beamsOf } from '../beams.js';
import { divisionOf } from '../division.js';
import { type Measure, tickOf, WHOLE } from '../measures.js';
import type { Piece } from '../written.js';
import { staffNumber } from './definitions.js';
import { layerText } from './layer.js';
import type { WrittenScore, WrittenStaff } from './score.js';
import { element, xmlText } from './xml.js';

/** What a measure's text is made from. */
export interface MeasureText {
  readonly score: WrittenScore;
  readonly measure: Measure;
  /** Of the measure, from 0. */
  readonly index: number;
  readonly fifths: number;
  readonly chords: WrittenScore['chords'];
  /** Filled with the written tick of each element with an id. */
  readonly positions: Map<string, number>;
}

/** One bar of all staves, with its ties, words and chord names. */
export function measureText(about: MeasureText): string {
  const { score, measure, index, chords } = about;
  const controls: string[] = [];
  const staves = score.staves.flatMap((staff, part) => {
    const n = staffNumber(part);
    const layers = staffText(about, staff, n, controls);
    const lane = element('layer', { n: 1 }, '<mSpace/>');
    return [
      element('staff', { 'xml:id': `s${n}-${measure.bar}`, n }, layers),
      element('staff', { 'xml:id': `s${n + 1}-${measure.bar}`, n: n + 1 }, lane),
    ];
  });
  const names = score.staves.length === 0 ? [] : chords.map((chord) => harmony(about, chord));
  const right = index === score.measures.length - 1 ? 'end' : undefined;
  const content = [...staves, ...controls, ...names].join('\n');
  return element('measure', { 'xml:id': `m${measure.bar}`, n: measure.bar, right }, content);
}

function staffText(
  { score, measure, index, fifths, positions }: MeasureText,
  staff: WrittenStaff,
  n: number,
  controls: string[],
): string {
  const bar = staff.bars[index] ?? [];
  if (bar.length === 0) {
    const id = `r${n}-${measure.bar}-0`;
    positions.set(id, measure.tick);
    return element('layer', { n: 1 }, element('mRest', { 'xml:id': id }));
  }
  const heads = headsOf(bar, fifths);
  const division = divisionOf(measure.meter);
  let rests = 0;
  const layers = bar.map((layer, at) =>
    element(
      'layer',
      { n: at + 1 },
      layerText(layer, {
        heads,
        beams: beamsOf(layer, measure, division),
        isPercussion: staff.clef.shape === 'perc',
        restId: (piece) => {
          const id = `r${n}-${measure.bar}-${rests}`;
          rests += 1;
          positions.set(id, tickOf(score.clock, measure, piece.start));
          return id;
        },
      }),
    ),
  );
  for (const layer of bar)
    for (const piece of layer) {
      if (!piece.event) continue;
      const tick = tickOf(score.clock, measure, piece.start);
      for (const { id } of heads.get(piece) ?? []) positions.set(id, tick);
      controls.push(...tiesFrom(piece), ...wordsAt(piece, staff, n));
    }
  return layers.join('');
}

function tiesFrom({ event, end, nth }: Piece): readonly string[] {
  if (!event || end >= event.end) return [];
  return event.notes.map(({ id }) => {
    const from = nth === 0 ? id : `${id}-${nth + 1}`;
    return element('tie', { startid: `#${from}`, endid: `#${id}-${nth + 2}` });
  });
}

function wordsAt({ event, nth }: Piece, { words }: WrittenStaff, staff: number): readonly string[] {
  if (!event || nth > 0) return [];
  return event.notes.flatMap(({ id }) => {
    const text = xmlText(words.get(id) ?? '');
    return text === '' ? [] : [element('dir', { place: 'above', staff, startid: `#${id}` }, text)];
  });
}

function harmony({ score, measure }: MeasureText, { tick, text }: WrittenScore['chords'][number]): string {
  const beat = (score.clock.ticksPerWhole ?? WHOLE) / measure.meter.unit;
  const tstamp = Number((1 + Math.max(0, tick - measure.tick) / beat).toFixed(6));
  return element('harm', { place: 'above', staff: 1, tstamp }, xmlText(text));
}
