// Reads a MusicXML 4.0 tree, partwise or timewise, into a score.
import type { Findings } from '../diagnostic.js';
import type { Score, ScorePart } from '../model.js';
import { at, descendants, numberOf, textAt, type XmlElement } from '../xml/element.js';
import { mergeMeasures } from './measures.js';
import { readPart } from './part.js';
import { type PartHead, percussionChannel, readPartList } from './part-list.js';
import { partsOfRoot } from './partwise.js';
import { ppqOf } from './ppq.js';
import type { PartState } from './state.js';

export const musicXmlRoots: readonly string[] = ['score-partwise', 'score-timewise'];

/** What is wrong goes to `found`; the score has what could be read. */
export function readMusicXml(root: XmlElement, found: Findings): Score {
  const parts = partsOfRoot(root, found);
  if (parts.length === 0 && !found.hasErrors)
    found.error('score-missing', root, 'the score has no parts', 'export it again, with its parts');
  const heads = readPartList(root);
  const ppq = ppqOf(divisionsOf(root));
  const isConcertPitch = at(root, 'defaults', 'concert-score') !== undefined;
  const states = parts.map(({ id, measures }) => {
    const state = freshState(heads.get(id) ?? unlisted(id), ppq, isConcertPitch, found);
    readPart(measures, state);
    return state;
  });
  return {
    title: textAt(root, 'work', 'work-title') ?? textAt(root, 'movement-title') ?? '',
    ppq,
    measures: mergeMeasures(
      states.map(({ measures }) => measures),
      ppq,
    ),
    parts: states.map(partOf),
    tempi: inOrder(states.flatMap(({ tempi }) => tempi)),
    swings: inOrder(states.flatMap(({ swings }) => swings)),
  };
}

/** A part that the list leaves out is played all the same. */
function unlisted(id: string): PartHead {
  return { id, name: id, channel: null, keys: new Map(), firstInstrument: undefined };
}

function divisionsOf(root: XmlElement): readonly number[] {
  const all = new Set<number>();
  for (const one of descendants(root)) if (one.name === 'divisions') all.add(numberOf(one.text) ?? 1);
  return [...all].filter((one) => one > 0);
}

function freshState(head: PartHead, ppq: number, isConcertPitch: boolean, found: Findings): PartState {
  return {
    ppq,
    found,
    head,
    isConcertPitch,
    notes: [],
    signs: [],
    tempi: [],
    swings: [],
    slurs: [],
    measures: [],
    transpositions: new Map(),
    keys: new Map(),
    alters: new Map(),
    waves: new Map(),
    glides: new Map(),
    chordTremolo: [],
    divisions: 1,
    hasDivisions: false,
    metre: null,
    measure: 0,
    cursor: 0,
    onset: 0,
    furthest: 0,
    toldMicrotone: false,
    toldKey: false,
  };
}

function partOf({ head, notes, signs }: PartState): ScorePart {
  return {
    id: head.id,
    name: head.name,
    channel: head.channel,
    isPercussion: head.keys.size > 0 || head.channel === percussionChannel,
    notes: inOrder(notes),
    signs: inOrder(signs),
  };
}

/** By place; what stands at one place keeps the order of the file. */
export function inOrder<T extends { readonly measure: number; readonly offset: number }>(
  all: readonly T[],
): readonly T[] {
  return [...all].sort((a, b) => a.measure - b.measure || a.offset - b.offset);
}
