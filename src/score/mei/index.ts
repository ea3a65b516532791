// Reads an MEI tree (common Western notation, MEI 3 to 5) into a score.
import type { Findings } from '../diagnostic.js';
import type { Score, ScorePart } from '../model.js';
import { inOrder } from '../musicxml/index.js';
import { childrenOf, descendants, numberIn, textAt, type XmlElement } from '../xml/element.js';
import { readReferences } from './control.js';
import { passedOver } from './passed-over.js';
import { expandedOrder, readSection } from './section.js';
import { type MeiState, ppq, type Staff, type TupletSpan } from './state.js';
import { referenceOf } from './values.js';

/**
 * Each staff becomes a part; staves of one instrument (a group with a name whose staves have none) become one. What is
 * wrong, and what is not read, goes to `found`; the score has what could be read.
 */
export function readMei(root: XmlElement, found: Findings): Score {
  const state = freshState(root, found);
  // a head may have the first bars of a piece for catalogues (incip), which are no part of the music
  const scores = childrenOf(root, 'music').flatMap((music) =>
    [...descendants(music)].filter(({ name }) => name === 'score'),
  );
  const parts = scores.map((score) => readSection(score, state));
  if (state.measures.length === 0)
    found.error(
      'score-missing',
      root,
      'there is no <measure> in a <score>',
      'common Western notation, in bars',
    );
  readReferences(state);
  state.passedOver.tell();
  const order = expandedOrder({ id: '', measure: undefined, parts, expansion: undefined }, found);
  return {
    title: titleOf(root),
    ppq,
    measures: state.measures,
    ...(order ? { order } : {}),
    parts: groupsOf(state.staves).map(partOf),
    tempi: inOrder(state.tempi),
    swings: [],
  };
}

/** More notes than this are not said again. */
const mostAgain = 1_000_000;

function freshState(root: XmlElement, found: Findings): MeiState {
  const tupletSpans = new Map<string, TupletSpan>();
  let [hasSignature, isInflected] = [false, false];
  for (const one of descendants(root)) {
    const { name, attributes } = one;
    if (name === 'tupletSpan') readTupletSpan(one, tupletSpans, found);
    if (attributes.has('accid.ges') || attributes.has('pnum')) isInflected = true;
    const key = attributes.get('keysig') ?? attributes.get('key.sig') ?? attributes.get('sig') ?? '0';
    if (/^[1-7][sf]$/u.test(key)) hasSignature = true;
  }
  const isByKey = hasSignature && !isInflected;
  if (isByKey)
    found.warning(
      'score-inferred',
      root,
      'no note says how it is inflected by the key signature (accid.ges)',
      'key signatures and accidentals are taken to hold for the bar, as in print',
    );
  return {
    found,
    passedOver: passedOver(found),
    staves: new Map(),
    measures: [],
    tempi: [],
    references: [],
    byId: new Map(),
    staffOf: new Map(),
    places: new Map(),
    byBar: new Map(),
    room: mostAgain,
    around: new Map(),
    performed: new Set(),
    tupletSpans,
    tupletScale: 2 / 3,
    isByKey,
    metre: null,
    ending: null,
    opensNext: false,
  };
}

/** Tuplets that are spans, by the ids of the events that they begin with (MEI 5, tupletSpan). */
function readTupletSpan(element: XmlElement, into: Map<string, TupletSpan>, found: Findings): void {
  const [start, end] = ['startid', 'endid'].map((name) => referenceOf(element.attributes.get(name)));
  const [num, base] = [numberIn(element, 'num') ?? 3, numberIn(element, 'numbase') ?? 2];
  if (start && end && num > 0 && base > 0) into.set(start, { end, scale: base / num });
  else
    found.warning(
      'score-value',
      element,
      'a tupletSpan without the ids of its first and last event',
      'startid="#a" endid="#c" num="3" numbase="2"',
    );
}

function titleOf(root: XmlElement): string {
  const head = childrenOf(root, 'meiHead')[0];
  const title = head && [...descendants(head)].find(({ name, text }) => name === 'title' && text !== '');
  return title?.text ?? textAt(head, 'titleStmt', 'title') ?? '';
}

/** Staves that are one part, in order of the score. */
function groupsOf(staves: ReadonlyMap<string, Staff>): readonly (readonly Staff[])[] {
  const groups = new Map<string, Staff[]>();
  for (const staff of staves.values()) {
    const group = groups.get(staff.group);
    if (group) group.push(staff);
    else groups.set(staff.group, [staff]);
  }
  return [...groups.values()];
}

function partOf(staves: readonly Staff[]): ScorePart {
  const [first] = staves;
  return {
    id: staves.map(({ number }) => number).join('+'),
    name: first?.name ?? '',
    channel: first?.channel ?? null,
    isPercussion: staves.some(({ isPercussion }) => isPercussion),
    notes: inOrder(staves.flatMap(({ notes }) => notes)),
    signs: inOrder(staves.flatMap(({ signs }) => signs)),
  };
}
