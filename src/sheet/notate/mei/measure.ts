import { headsOf } from '../accidentals.js';
import { beamsOf } from '../beams.js';
import { divisionOf } from '../division.js';
import { type Measure, tickOf, WHOLE } from '../measures.js';
import { isRolled } from '../rolled.js';
import { type ChordName, headId, type Piece, type WrittenScore, type WrittenStaff } from '../written.js';
import { staffNumber } from './definitions.js';
import { layerText } from './layer.js';
import { element, xmlText } from './xml.js';

/** The text of a bar with some staves, by the indices of their parts. */
export type MeasureText = (parts: readonly number[]) => string;

/**
 * One bar, with its ties, words and chord names.
 *
 * @param index of the bar, from 0
 * @param positions filled with the written tick of each element with an id
 */
export function measureText(score: WrittenScore, index: number, positions: Map<string, number>): MeasureText {
  const measure = score.measures[index];
  if (!measure) return () => '';
  const isCounted = measure.bars <= MOST_COUNTED;
  const sign = { num: measure.bars, 'num.visible': isCounted ? undefined : 'false' };
  const many = element('layer', { n: 1 }, element('multiRest', sign));
  const empty = element('layer', { n: 1 }, '<mSpace/>');
  const texts = score.staves.map((staff, part) => {
    const controls: string[] = [];
    const n = staffNumber(part);
    // Where notes are held over many bars, the sign for so many stands on the line below them.
    const isHeld = staff.held.has(index);
    const silent = isHeld ? empty : many;
    const text = measure.bars > 1 ? silent : staffText(score, index, measure, part, positions);
    if (!isCounted)
      controls.push(
        element('dir', { place: 'above', staff: isHeld ? n + 1 : n, tstamp: 1 }, `${measure.bars} bars`),
      );
    for (const piece of (staff.bars[index] ?? []).flat())
      controls.push(...controlsAt(piece, staff, n, score));
    const staves = [
      element('staff', { 'xml:id': `s${n}-${measure.bar}`, n }, text),
      element('staff', { 'xml:id': `s${n + 1}-${measure.bar}`, n: n + 1 }, isHeld ? many : empty),
    ];
    return { staves, controls };
  });
  const right = index === score.measures.length - 1 ? 'end' : undefined;
  return (parts) => {
    const [top] = parts;
    const chords = top === undefined ? [] : (score.chords[index] ?? []);
    const content = [
      ...parts.flatMap((part) => texts[part]?.staves ?? []),
      ...parts.flatMap((part) => texts[part]?.controls ?? []),
      ...chords.map((chord) => harmony(chord, measure, score, staffNumber(top ?? 0))),
    ];
    return element('measure', { 'xml:id': `m${measure.bar}`, n: measure.bar, right }, content.join('\n'));
  };
}

/** The engraver writes no greater number above its sign for many bars. */
const MOST_COUNTED = 999;

function staffText(
  score: WrittenScore,
  index: number,
  measure: Measure,
  part: number,
  positions: Map<string, number>,
): string {
  const staff = score.staves[part];
  const bar = staff?.bars[index] ?? [];
  const restName = `r${staffNumber(part)}-${measure.bar}`;
  if (!staff || bar.length === 0) {
    const id = `${restName}-0`;
    positions.set(id, measure.tick);
    return element('layer', { n: 1 }, element('mRest', { 'xml:id': id }));
  }
  const heads = headsOf(bar, staff.clef.shape === 'perc' ? 0 : (score.fifths[index] ?? 0));
  for (const [piece, written] of heads) {
    const tick = tickOf(measure, piece.start);
    for (const { id } of written) positions.set(id, tick);
  }
  let rests = 0;
  const restId = (piece: Piece) => {
    const id = `${restName}-${rests}`;
    rests += 1;
    positions.set(id, tickOf(measure, piece.start));
    return id;
  };
  const division = divisionOf(measure.meter);
  const layers = bar.map((layer, at) => {
    const beams = beamsOf(layer, measure, division);
    return element('layer', { n: at + 1 }, layerText(layer, { heads, beams, clef: staff.clef, restId }));
  });
  return layers.join('');
}

/** Ties to what follows; at the heads also words, and the sign for a rolled chord. */
function controlsAt(
  { event, end, nth }: Piece,
  { words }: WrittenStaff,
  staff: number,
  { clock }: WrittenScore,
): readonly string[] {
  if (!event) return [];
  const controls: string[] = [];
  for (const { id } of event.notes) {
    const startid = `#${headId(id, nth)}`;
    if (end < event.end) controls.push(element('tie', { startid, endid: `#${headId(id, nth + 1)}` }));
    const text = nth === 0 ? xmlText(words.get(id) ?? '') : '';
    if (text !== '') controls.push(element('dir', { place: 'above', staff, startid }, text));
  }
  if (nth === 0 && isRolled(event.notes, clock)) {
    const plist = event.notes.map(({ id }) => `#${id}`).join(' ');
    const order = (event.notes[0]?.pitch ?? 0) < (event.notes.at(-1)?.pitch ?? 0) ? 'up' : 'down';
    controls.push(element('arpeg', { staff, plist, order }));
  }
  return controls;
}

/** @param staff above which it stands */
function harmony(
  { tick, text }: ChordName,
  measure: Measure,
  { clock }: WrittenScore,
  staff: number,
): string {
  const beat = (clock.ticksPerWhole ?? WHOLE) / measure.meter.unit;
  const tstamp = Number((1 + Math.max(0, tick - measure.tick) / beat).toFixed(6));
  return element('harm', { place: 'above', staff, tstamp }, xmlText(text));
}
