import type { Findings } from '../diagnostic.js';
import type { XmlElement } from '../xml/element.js';
import { contentOf } from './children.js';
import { readDefinition } from './definitions.js';
import { readMeasure } from './measure.js';
import type { MeiState } from './state.js';
import { referenceOf } from './values.js';

/** Sections, endings and bars of a score, as its expansions may call for them. */
export interface Part {
  readonly id: string;
  /** A bar, as an index into the score's. */
  readonly measure: number | undefined;
  readonly parts: readonly Part[];
  /** What is played, by ids, where an expansion says so. */
  readonly expansion: readonly string[] | undefined;
}

/** Reads what stands in a score, section by section. */
export function readSection(element: XmlElement, state: MeiState): Part {
  const parts: Part[] = [];
  let expansion: readonly string[] | undefined;
  for (const one of contentOf(element)) {
    if (one.name === 'scoreDef' || one.name === 'staffDef') readDefinition(one, state);
    else if (one.name === 'measure')
      parts.push(...readMeasure(one, state).map((measure) => leaf(one, measure)));
    else if (one.name === 'ending') {
      state.ending = numbersOf(one.attributes.get('n') ?? '');
      parts.push(readSection(one, state));
      state.ending = null;
    } else if (one.name === 'expansion')
      expansion ??= (one.attributes.get('plist') ?? '').split(/\s+/u).flatMap((id) => referenceOf(id) || []);
    else if (one.name === 'section' || one.name === 'mdiv' || one.name === 'score')
      parts.push(readSection(one, state));
    else state.passedOver.put(one);
  }
  return { id: element.attributes.get('xml:id') ?? '', measure: undefined, parts, expansion };
}

function leaf(element: XmlElement, measure: number): Part {
  return { id: element.attributes.get('xml:id') ?? '', measure, parts: [], expansion: undefined };
}

/** Passes of an ending: "1", "1, 2", "1-3". */
function numbersOf(text: string): readonly number[] {
  const numbers = [...text.matchAll(/(\d{1,3})(?:\s*[-–]\s*(\d{1,3}))?/gu)].flatMap(([, first, last]) => {
    const [from, to] = [Number(first), Number(last ?? first)];
    return Array.from({ length: Math.max(0, to - from + 1) }, (_, index) => from + index);
  });
  const passes = numbers.filter((one) => one >= 1);
  return passes.length > 0 ? passes : [1];
}

/** More sections and bars than this are not played out: expansions of expansions can play without end. */
const mostSteps = 200_000;

/**
 * The bars as expansions have them played (MEI 5, expansion: plist); undefined where the score has none, or they name what
 * is not there.
 */
export function expandedOrder(root: Part, found: Findings): readonly number[] | undefined {
  const byId = new Map<string, Part>();
  let isExpanded = false;
  const collect = (part: Part) => {
    if (part.id !== '') byId.set(part.id, part);
    if (part.expansion) isExpanded = true;
    for (const one of part.parts) collect(one);
  };
  collect(root);
  if (!isExpanded) return undefined;
  const order: number[] = [];
  let isWhole = true;
  let steps = 0;
  const within = new Set<Part>();
  const play = (part: Part) => {
    steps += 1;
    if (within.has(part) || steps > mostSteps) isWhole = false;
    if (!isWhole) return;
    if (part.measure !== undefined) order.push(part.measure);
    within.add(part);
    for (const one of part.expansion ?? []) {
      const next = byId.get(one);
      if (next) play(next);
      else isWhole = false;
    }
    if (!part.expansion) for (const one of part.parts) play(one);
    within.delete(part);
  };
  play(root);
  if (isWhole) return order;
  const message = 'an expansion leads to what is not there, or into itself';
  found.warning('score-jump', undefined, message, 'the bars are played by their repeat signs; see its plist');
  return undefined;
}
