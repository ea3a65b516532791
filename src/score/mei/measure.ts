import { largest } from '../largest.js';
import type { Jump } from '../model.js';
import { barTicks } from '../musicxml/measures.js';
import type { XmlElement } from '../xml/element.js';
import { contentOf } from './children.js';
import { isControl, jumpsOfText } from './control.js';
import { type ReadLayer, readLayer } from './layer.js';
import { type MeiState, ppq, staffOf } from './state.js';

/** Reads a bar. @returns the indices of the bars that it is: several for a rest over several */
export function readMeasure(element: XmlElement, state: MeiState): readonly number[] {
  const index = state.measures.length;
  const opens = readSigns(element, state);
  const inside = contentOf(element);
  const id = element.attributes.get('xml:id');
  if (id !== undefined) state.places.set(id, { measure: index, offset: 0 });
  const layers = inside
    .filter(({ name }) => name === 'staff')
    .flatMap((staff) => readStaff(staff, index, state));
  const metre = state.metre ?? [...state.staves.values()].find((staff) => staff.metre)?.metre ?? null;
  const whole = barTicks(metre, ppq);
  const behind = largest(
    layers.map(({ barsBehind }) => barsBehind),
    0,
  );
  if (index + behind > mostBars) {
    const message = `with rests over several bars the score has more than ${mostBars} bars`;
    state.found.error('score-too-large', element, message, 'see the num of its multiRest elements');
    return [];
  }
  const lengths = [lengthOf(element, layers, whole), ...Array.from({ length: behind }, () => whole)];
  lengths.forEach((length, at) => {
    state.measures.push({
      number: element.attributes.get('n') ?? String(index + 1),
      length,
      metre,
      repeatFrom: opens && at === 0,
      repeatTo: isRepeatEnd(element, 'right') && at === behind ? { times: null, afterJump: false } : null,
      ending: state.ending,
      jumps: at === 0 ? inside.flatMap(jumpOf) : [],
    });
  });
  for (const one of inside) {
    if (isControl(one)) state.references.push({ element: one, measure: index });
    else if (!known.has(one.name)) state.passedOver.put(one);
  }
  return lengths.map((_, at) => index + at);
}

function isRepeatEnd({ attributes }: XmlElement, side: 'left' | 'right'): boolean {
  return ['rptend', 'rptboth'].includes(attributes.get(side) ?? '');
}

function isRepeatStart({ attributes }: XmlElement, side: 'left' | 'right'): boolean {
  return ['rptstart', 'rptboth'].includes(attributes.get(side) ?? '');
}

/** Repeat signs on either side. @returns whether a section begins with the bar */
function readSigns(element: XmlElement, state: MeiState): boolean {
  const before = state.measures.at(-1);
  if (isRepeatEnd(element, 'left') && before) before.repeatTo ??= { times: null, afterJump: false };
  const opens = state.opensNext || isRepeatStart(element, 'left');
  state.opensNext = isRepeatStart(element, 'right');
  return opens;
}

/** As many bars as repeats may make. */
const mostBars = 100_000;

const known: ReadonlySet<string> = new Set(['staff', 'repeatMark', 'tupletSpan']);

function readStaff(element: XmlElement, measure: number, state: MeiState): readonly ReadLayer[] {
  const staff = staffOf(state, element.attributes.get('n') ?? '1');
  staff.alters.clear();
  return contentOf(element).flatMap((one) => {
    if (one.name === 'layer') return [readLayer(one, staff, measure, state)];
    state.passedOver.put(one);
    return [];
  });
}

/**
 * A bar is as long as what is in it. Signs that fill a bar fill that, where the bar is said not to follow its metre (MEI
 * 5, metcon) or the rest of it is longer; else they are as long as the metre. Unit: ticks.
 */
function lengthOf(element: XmlElement, layers: readonly ReadLayer[], whole: number): number {
  const content = Math.round(
    ppq *
      largest(
        layers.map(({ length }) => length),
        0,
      ),
  );
  if (content === 0) return whole;
  const isFilled = layers.some(({ fillsBar }) => fillsBar) && element.attributes.get('metcon') !== 'false';
  return isFilled ? Math.max(content, whole) : content;
}

/** Signs and words that lead elsewhere (MEI 5, repeatMark: func). */
function jumpOf(element: XmlElement): readonly Jump[] {
  const func = element.name === 'repeatMark' ? element.attributes.get('func') : undefined;
  switch (func) {
    case 'segno':
    case 'coda':
      return [{ kind: func, name: '' }];
    case 'daCapo':
      return [{ kind: 'dacapo', offset: null }];
    case 'dalSegno':
      return [{ kind: 'dalsegno', name: '', offset: null }];
    case 'fine':
      return [{ kind: 'fine', offset: null }];
    default: {
      const isText = element.name === 'repeatMark' || element.name === 'dir';
      const jump = isText ? jumpsOfText(element) : undefined;
      return jump ? [jump] : [];
    }
  }
}
