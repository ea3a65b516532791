import { isDynamicName } from '../loudness.js';
import type { Sign } from '../model.js';
import { signsOfWords } from '../musicxml/words.js';
import { descendants, numberIn, type XmlElement } from '../xml/element.js';
import { type DraftNote, type MeiState, type Reference, type Staff, staffOf, ticks } from './state.js';
import { quartersOf, referenceOf } from './values.js';

/** A place of the score. Unit of the offset: ticks. */
interface Spot {
  readonly measure: number;
  readonly offset: number;
}

/** Ornaments and signs that one note has, by their elements; `form` chooses between upper and lower. */
const noteMarks: Readonly<Record<string, (element: XmlElement) => string>> = {
  trill: () => 'trill-mark',
  mordent: ({ attributes }) => (attributes.get('form') === 'upper' ? 'inverted-mordent' : 'mordent'),
  turn: ({ attributes }) => {
    const name = attributes.get('form') === 'lower' ? 'inverted-turn' : 'turn';
    return attributes.get('delayed') === 'true' ? `delayed-${name}` : name;
  },
  breath: () => 'breath-mark',
  caesura: () => 'caesura',
  bend: () => 'bend',
};

/** Control events, when all notes are known: ties and slurs, dynamics, hairpins, ornaments, pedals, words, tempo. */
export function readReferences(state: MeiState): void {
  for (const reference of state.references) readControl(reference, state);
}

function readControl(reference: Reference, state: MeiState): void {
  const { element } = reference;
  switch (element.name) {
    case 'tie':
    case 'slur':
      span(reference, state);
      return;
    case 'hairpin':
      hairpin(reference, state);
      return;
    case 'dynam':
      put(reference, state, dynamSigns(textOf(element)));
      return;
    case 'dir':
      put(reference, state, signsOfWords(textOf(element)));
      return;
    case 'pedal':
      put(reference, state, pedalSigns(element));
      return;
    case 'tempo':
      tempo(reference, state);
      return;
    case 'arpeg':
      for (const note of notesAt(reference, state)) note.roll = { name: '', direction: 'up' };
      return;
    default: {
      const name = noteMarks[element.name]?.(element);
      if (name !== undefined)
        for (const note of notesAt(reference, state)) note.marks = [...note.marks, name];
    }
  }
}

/** All text in an element and what it holds. */
function textOf(element: XmlElement): string {
  return [element.text, ...[...descendants(element)].map(({ text }) => text)].join(' ').trim();
}

function dynamSigns(text: string): readonly Sign[] {
  const plain = text.toLowerCase();
  return isDynamicName(plain) ? [{ kind: 'dynamic', name: plain }] : signsOfWords(text);
}

function pedalSigns({ attributes }: XmlElement): readonly Sign[] {
  const press = (value: number): Sign => ({ kind: 'controller', number: 64, value });
  const direction = attributes.get('dir');
  if (direction === 'bounce') return [press(0), press(127)];
  return direction === 'down' || direction === 'up' ? [press(direction === 'down' ? 127 : 0)] : [];
}

/** The staves that an event is for; all where it does not say. */
function stavesOf({ element }: Reference, state: MeiState): readonly Staff[] {
  const named = (element.attributes.get('staff') ?? '').split(/\s+/u).filter((one) => one !== '');
  if (named.length > 0) return named.map((one) => staffOf(state, one));
  const owner = state.byId.get(referenceOf(element.attributes.get('startid')) ?? '')?.[0];
  const staves = [...state.staves.values()];
  return owner ? staves.filter(({ notes }) => notes.includes(owner)) : staves;
}

function spotOf({ element, measure }: Reference, state: MeiState): Spot | undefined {
  const start = element.attributes.get('startid');
  if (start !== undefined) {
    const note = state.byId.get(referenceOf(start) ?? '')?.[0];
    if (!note) lost(element, start, state);
    return note;
  }
  const stamp = numberIn(element, 'tstamp');
  return { measure, offset: stampTicks(stamp ?? 1, measure, state) };
}

/** A time stamp counts beats of the metre, from 1. */
function stampTicks(stamp: number, measure: number, state: MeiState): number {
  return Math.max(0, ticks(((stamp - 1) * 4) / (state.measures[measure]?.metre?.beatType ?? 4)));
}

function endOf({ element, measure }: Reference, state: MeiState): Spot | undefined {
  const end = element.attributes.get('endid');
  if (end !== undefined) {
    const note = state.byId.get(referenceOf(end) ?? '')?.[0];
    if (!note) lost(element, end, state);
    return note;
  }
  const stamp = /^(?:(\d+)m\s*\+\s*)?(\d+(?:\.\d+)?)$/u.exec(element.attributes.get('tstamp2') ?? '');
  if (!stamp) return undefined;
  const there = measure + Number(stamp[1] ?? 0);
  return { measure: there, offset: stampTicks(Number(stamp[2]), there, state) };
}

function lost(element: XmlElement, id: string, state: MeiState): void {
  state.found.warning(
    'score-unpaired',
    element,
    `${element.name} refers to ${id.slice(0, 40)}, which is no note`,
    'an xml:id of the score',
  );
}

function put(reference: Reference, state: MeiState, signs: readonly Sign[]): void {
  const spot = signs.length > 0 ? spotOf(reference, state) : undefined;
  if (!spot) return;
  const { measure, offset } = spot;
  for (const staff of stavesOf(reference, state))
    for (const sign of signs) staff.signs.push({ ...sign, measure, offset });
}

function hairpin(reference: Reference, state: MeiState): void {
  const { element } = reference;
  const form = element.attributes.get('form');
  const [from, to] = [spotOf(reference, state), endOf(reference, state)];
  if (!from || (form !== 'cres' && form !== 'dim')) return;
  const number = element.attributes.get('xml:id') ?? `${element.line}.${element.column}`;
  for (const { signs } of stavesOf(reference, state)) {
    signs.push({
      kind: 'hairpin',
      direction: form === 'cres' ? 1 : -1,
      number,
      measure: from.measure,
      offset: from.offset,
    });
    if (to) signs.push({ kind: 'hairpin', direction: 0, number, measure: to.measure, offset: to.offset });
  }
}

/** Quarters a minute: as sounding, else by the metronome mark. */
function tempo(reference: Reference, state: MeiState): void {
  const { element } = reference;
  const unit = quartersOf(element.attributes.get('mm.unit'), numberIn(element, 'mm.dots') ?? 0) ?? 1;
  const marked = numberIn(element, 'mm');
  const quartersPerMinute =
    numberIn(element, 'midi.bpm') ?? (marked === undefined ? undefined : marked * unit);
  const spot = spotOf(reference, state);
  if (spot && quartersPerMinute !== undefined && quartersPerMinute > 0)
    state.tempi.push({ quartersPerMinute, measure: spot.measure, offset: spot.offset });
}

function notesAt(reference: Reference, state: MeiState): readonly DraftNote[] {
  const start = referenceOf(reference.element.attributes.get('startid'));
  if (start !== undefined) return state.byId.get(start) ?? [];
  const spot = spotOf(reference, state);
  return stavesOf(reference, state).flatMap(({ notes }) =>
    notes.filter((note) => spot && note.measure === spot.measure && note.offset === spot.offset),
  );
}

/** Ties and slurs that are elements of their own. */
function span(reference: Reference, state: MeiState): void {
  const [from, to] = [spotOf(reference, state), endOf(reference, state)];
  if (!from || !to) return;
  const starts = notesAt(reference, state);
  const ends = state.byId.get(referenceOf(reference.element.attributes.get('endid')) ?? '') ?? [];
  if (reference.element.name === 'tie') {
    for (const note of starts) note.tiedTo = true;
    for (const note of ends) note.tiedFrom = true;
    return;
  }
  const voices = new Set([...starts, ...ends].map(({ voice }) => voice));
  const under = stavesOf(reference, state).flatMap(({ notes }) =>
    notes.filter((note) => isUnder(note, from, to)),
  );
  for (const note of under) if (voices.has(note.voice)) note.isSlurred = true;
  for (const note of starts) if (note.grace) note.isSlurred = true;
}

/** Whether a slur goes on from a note to the next. */
function isUnder(note: Spot, from: Spot, to: Spot): boolean {
  return !isBefore(note, from) && isBefore(note, to);
}

function isBefore(a: Spot, b: Spot): boolean {
  return a.measure < b.measure || (a.measure === b.measure && a.offset < b.offset);
}
