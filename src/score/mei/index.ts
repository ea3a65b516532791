// Reads an MEI tree (common Western notation, MEI 3 to 5) into a score.
import type { Findings } from '../diagnostic.js';
import type { Jump, Score, ScorePart } from '../model.js';
import { inOrder } from '../musicxml/index.js';
import { barTicks } from '../musicxml/measures.js';
import { numbersIn } from '../musicxml/state.js';
import { childrenOf, descendants, textAt, type XmlElement } from '../xml/element.js';
import { readReferences } from './control.js';
import { readDefinition } from './definitions.js';
import { readLayer } from './layer.js';
import { type MeiState, ppq, type Staff, staffOf } from './state.js';

/** Each staff becomes a part. What is wrong goes to `found`; the score has what could be read. */
export function readMei(root: XmlElement, found: Findings): Score {
  const state: MeiState = {
    found,
    staves: new Map(),
    measures: [],
    tempi: [],
    references: [],
    byId: new Map(),
    metre: null,
    ending: null,
    opensNext: false,
  };
  const scores = [...descendants(root)].filter(({ name }) => name === 'score');
  for (const score of scores) walk(score, state);
  if (state.measures.length === 0)
    found.error(
      'score-missing',
      root,
      'there is no <measure> in a <score>',
      'common Western notation, in bars',
    );
  readReferences(state);
  return {
    title: titleOf(root),
    ppq,
    measures: state.measures,
    parts: [...state.staves.values()].map(partOf),
    tempi: inOrder(state.tempi),
    swings: [],
  };
}

function titleOf(root: XmlElement): string {
  const head = childrenOf(root, 'meiHead')[0];
  const title = head && [...descendants(head)].find(({ name, text }) => name === 'title' && text !== '');
  return title?.text ?? textAt(head, 'titleStmt', 'title') ?? '';
}

function walk(element: XmlElement, state: MeiState): void {
  for (const one of element.children) {
    if (one.name === 'scoreDef' || one.name === 'staffDef') readDefinition(one, state);
    else if (one.name === 'measure') readMeasure(one, state);
    else if (one.name === 'ending') {
      const numbers = numbersIn(one.attributes.get('n') ?? '');
      state.ending = numbers.length > 0 ? numbers : [1];
      walk(one, state);
      state.ending = null;
    } else walk(one, state);
  }
}

const controls: ReadonlySet<string> = new Set([
  ...['tie', 'slur', 'hairpin', 'dynam', 'dir', 'pedal', 'tempo', 'arpeg', 'trill', 'mordent', 'turn'],
  ...['breath', 'caesura', 'bend'],
]);

function readMeasure(element: XmlElement, state: MeiState): void {
  const index = state.measures.length;
  const left = element.attributes.get('left');
  const right = element.attributes.get('right');
  const opens = state.opensNext || left === 'rptstart' || left === 'rptboth';
  state.opensNext = right === 'rptstart' || right === 'rptboth';
  const before = state.measures[index - 1];
  if ((left === 'rptend' || left === 'rptboth') && before)
    before.repeatTo ??= { times: null, afterJump: false };
  const isEnd = right === 'rptend' || right === 'rptboth';
  const lengths = childrenOf(element, 'staff').flatMap((staff) => {
    const own = staffOf(state, staff.attributes.get('n') ?? '1');
    return childrenOf(staff, 'layer').map((layer) => readLayer(layer, own, index, state));
  });
  const content = Math.round(ppq * Math.max(0, ...lengths));
  state.measures.push({
    number: element.attributes.get('n') ?? String(index + 1),
    length: content > 0 ? content : barTicks(state.metre, ppq),
    metre: state.metre ?? [...state.staves.values()].find(({ metre }) => metre)?.metre ?? null,
    repeatFrom: opens,
    repeatTo: isEnd ? { times: null, afterJump: false } : null,
    ending: state.ending,
    jumps: childrenOf(element, 'repeatMark').flatMap(jumpOf),
  });
  for (const one of element.children)
    if (controls.has(one.name)) state.references.push({ element: one, measure: index });
}

/** MEI 5, `repeatMark`. */
function jumpOf({ attributes }: XmlElement): readonly Jump[] {
  switch (attributes.get('func')) {
    case 'segno':
      return [{ kind: 'segno', name: '' }];
    case 'coda':
      return [{ kind: 'coda', name: '' }];
    case 'daCapo':
      return [{ kind: 'dacapo', offset: null }];
    case 'dalSegno':
      return [{ kind: 'dalsegno', name: '', offset: null }];
    case 'fine':
      return [{ kind: 'fine', offset: null }];
    default:
      return [];
  }
}

function partOf(staff: Staff): ScorePart {
  return {
    id: staff.number,
    name: staff.name,
    channel: null,
    isPercussion: staff.isPercussion,
    notes: inOrder(staff.notes),
    signs: inOrder(staff.signs),
  };
}
