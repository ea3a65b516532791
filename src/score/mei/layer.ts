import { barTicks } from '../musicxml/measures.js';
import { numberIn, type XmlElement } from '../xml/element.js';
import { contentOf } from './children.js';
import { type Cursor, cursorAt, type TremoloSign } from './cursor.js';
import { keyOf, metreOf } from './definitions.js';
import { fillGap, lengthOf, strike } from './note.js';
import { silent } from './passed-over.js';
import { repeatBars, repeatSpan } from './repeats.js';
import { type MeiState, ppq, type Staff, ticks } from './state.js';
import { quartersOf, strokesOf } from './values.js';

/** A layer of a bar that was read. */
export interface ReadLayer {
  /** Quarters of what has a length of its own. */
  readonly length: number;
  readonly fillsBar: boolean;
  readonly barsBehind: number;
}

export function readLayer(element: XmlElement, staff: Staff, measure: number, state: MeiState): ReadLayer {
  const voice = element.attributes.get('n') ?? '1';
  const cursor = cursorAt(staff, `${staff.number}.${voice}`, measure);
  for (const one of contentOf(element)) readEvent(one, cursor, state);
  fillGap(cursor, barTicks(staff.metre ?? state.metre, ppq) / ppq, state);
  return { length: cursor.at, fillsBar: cursor.fillsBar, barsBehind: cursor.barsBehind };
}

function readEvent(element: XmlElement, cursor: Cursor, state: MeiState): void {
  const id = element.attributes.get('xml:id');
  if (id !== undefined) state.places.set(id, { measure: cursor.measure, offset: ticks(cursor.at) });
  const span = id === undefined ? undefined : state.tupletSpans.get(id);
  if (span) cursor.spans.set(span.end, span.scale);
  readOne(element, cursor, state);
  if (id !== undefined) cursor.spans.delete(id);
}

function readOne(element: XmlElement, cursor: Cursor, state: MeiState): void {
  switch (element.name) {
    case 'note':
    case 'chord':
    case 'tabGrp':
      strike(element, cursor, state);
      return;
    case 'rest':
    case 'space':
      cursor.at += lengthOf(element, cursor, state);
      return;
    case 'mRest':
    case 'mSpace':
      cursor.fillsBar = true;
      return;
    case 'multiRest':
      cursor.fillsBar = true;
      cursor.barsBehind = Math.max(0, Math.min(9999, Math.round(numberIn(element, 'num') ?? 1)) - 1);
      return;
    case 'mRpt':
      repeatBars(1, cursor, state);
      return;
    case 'mRpt2':
      repeatBars(2, cursor, state);
      return;
    case 'multiRpt':
      repeatBars(Math.max(1, Math.round(numberIn(element, 'num') ?? 2)), cursor, state);
      return;
    case 'halfmRpt':
      repeatSpan(barTicks(cursor.staff.metre ?? state.metre, ppq) / ppq / 2, cursor, state);
      return;
    case 'beatRpt':
      repeatSpan(beatOf(element, cursor, state), cursor, state);
      return;
    case 'keySig':
      cursor.staff.key = keyOf(element) ?? cursor.staff.key;
      return;
    case 'meterSig':
      cursor.staff.metre = metreOf(element, state) ?? cursor.staff.metre;
      return;
    case 'beam':
    case 'tuplet':
    case 'graceGrp':
    case 'bTrem':
    case 'fTrem':
    case 'ligature':
      within(element, cursor, state);
      return;
    default:
      state.passedOver.put(element);
      // what is not known may hold notes all the same
      if (!silent.has(element.name)) within(element, cursor, state);
  }
}

/** A beat of the metre: of 6/8 three eighths. MEI 5, beatdef: in units of the metre. Unit: quarters. */
function beatOf(element: XmlElement, { staff }: Cursor, state: MeiState): number {
  const { beats, beatType } = staff.metre ?? state.metre ?? { beats: 4, beatType: 4 };
  const isCompound = beatType >= 8 && beats % 3 === 0;
  return ((numberIn(element, 'beatdef') ?? (isCompound ? 3 : 1)) * 4) / beatType;
}

/** Elements that hold others: beams, tuplets, tremolos, groups of grace notes. */
function within(element: XmlElement, cursor: Cursor, state: MeiState): void {
  const { scale, isInTuplet, tremolo, grace } = cursor;
  const { name, attributes } = element;
  if (name === 'tuplet') {
    cursor.scale *= tupletScale(element);
    cursor.isInTuplet = true;
  }
  if (name === 'graceGrp')
    cursor.grace = { kind: attributes.get('grace'), isBehind: attributes.get('attach') === 'post' };
  if (name === 'bTrem' || name === 'fTrem') cursor.tremolo = tremoloOf(element);
  // each of two notes in turn is written with the length of both
  if (name === 'fTrem') cursor.scale /= 2;
  for (const one of contentOf(element)) readEvent(one, cursor, state);
  Object.assign(cursor, { scale, isInTuplet, tremolo, grace });
}

function tupletScale(element: XmlElement): number {
  const [num, base] = [numberIn(element, 'num') ?? 3, numberIn(element, 'numbase') ?? 2];
  return num > 0 && base > 0 ? base / num : 1;
}

function tremoloOf(element: XmlElement): TremoloSign {
  const { name, attributes } = element;
  const unit = quartersOf(attributes.get('unitdur'), 0);
  const beams = name === 'fTrem' ? numberIn(element, 'beams') : undefined;
  return {
    isMeasured: attributes.get('form') !== 'unmeas',
    stroke: unit ?? (beams === undefined ? undefined : 2 ** -beams),
    slashes: strokesOf(attributes.get('stem.mod')) ?? strokesOf(attributes.get('slash')),
    alternating: name === 'fTrem' ? 0 : null,
  };
}
