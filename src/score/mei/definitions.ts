import type { Metre } from '../model.js';
import { childrenOf, descendants, numberIn, textAt, type XmlElement } from '../xml/element.js';
import { type MeiState, staffOf } from './state.js';

/** `scoreDef` and `staffDef`: names, transposition, metre, tempo. */
export function readDefinition(element: XmlElement, state: MeiState): void {
  const metre = metreOf(element);
  if (element.name === 'scoreDef') {
    if (metre) {
      state.metre = metre;
      for (const staff of state.staves.values()) staff.metre = null;
    }
    const tempo = numberIn(element, 'midi.bpm');
    if (tempo !== undefined && tempo > 0)
      state.tempi.push({ quartersPerMinute: tempo, measure: state.measures.length, offset: 0 });
    for (const one of descendants(element)) if (one.name === 'staffDef') readStaff(one, state);
  } else readStaff(element, state);
}

function readStaff(element: XmlElement, state: MeiState): void {
  const staff = staffOf(state, element.attributes.get('n') ?? '1');
  const name = element.attributes.get('label') ?? textAt(element, 'label');
  if (name !== undefined) staff.name = name;
  staff.transposition = numberIn(element, 'trans.semi') ?? staff.transposition;
  const clef =
    element.attributes.get('clef.shape') ?? childrenOf(element, 'clef')[0]?.attributes.get('shape');
  if (clef !== undefined) staff.isPercussion = clef === 'perc';
  const metre = metreOf(element);
  if (metre) staff.metre = metre;
}

/** By attributes, or a `meterSig` in it: "3+2" is 5. */
function metreOf(element: XmlElement): Metre | null {
  const inner = childrenOf(element, 'meterSig')[0];
  const count = element.attributes.get('meter.count') ?? inner?.attributes.get('count');
  const unit = numberIn(element, 'meter.unit') ?? numberIn(inner, 'unit');
  const symbol = element.attributes.get('meter.sym') ?? inner?.attributes.get('sym');
  if (count === undefined)
    return symbol === 'cut' ? { beats: 2, beatType: 2 } : symbol ? { beats: 4, beatType: 4 } : null;
  const beats = count.split('+').reduce((sum, one) => sum + Number(one), 0);
  const isMetre =
    Number.isInteger(beats) &&
    beats > 0 &&
    beats <= 255 &&
    unit !== undefined &&
    Number.isInteger(Math.log2(unit));
  return isMetre ? { beats, beatType: unit } : null;
}
