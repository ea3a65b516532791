import { largest } from '../largest.js';
import { isDynamicName } from '../loudness.js';
import type { Sign } from '../model.js';
import { jumpOfWords, signsOfWords } from '../musicxml/words.js';
import { descendants, numberIn, type XmlElement } from '../xml/element.js';
import { tempoOf } from './definitions.js';
import { elementOrnament, ornamentName } from './ornaments.js';
import { endOf, notesAt, spotOf, stavesOf, within } from './places.js';
import { gliss, octave, slur, tie, trillLine } from './spans.js';
import type { DraftNote, MeiState, Reference } from './state.js';
import { quartersOf } from './values.js';

/** Signs that one note has, by their elements. */
const noteMarks: Readonly<Record<string, string>> = {
  breath: 'breath-mark',
  caesura: 'caesura',
  bend: 'bend',
};

type Reader = (reference: Reference, state: MeiState) => void;

/** What is read of each kind of control event. */
const readers: Readonly<Record<string, Reader>> = {
  tie,
  slur,
  octave,
  gliss,
  hairpin,
  tempo,
  arpeg,
  trill: ornament,
  mordent: ornament,
  turn: ornament,
  ornam: ornament,
  breath: mark,
  caesura: mark,
  bend: mark,
  dynam: (reference, state) => put(reference, state, dynamSigns(reference.element)),
  dir: (reference, state) => put(reference, state, signsOfWords(textOf(reference.element))),
  pedal: (reference, state) => put(reference, state, pedalSigns(reference.element)),
};

/** Whether an element is a control event that says how the music sounds. */
export function isControl({ name }: XmlElement): boolean {
  return Object.hasOwn(readers, name);
}

/** Control events, when all notes are known: ties and slurs, dynamics, hairpins, ornaments, pedals, words, tempo. */
export function readReferences(state: MeiState): void {
  // an octave line moves what a glissando leads to
  const order = ({ element }: Reference) => (element.name === 'octave' ? 0 : 1);
  for (const reference of [...state.references].sort((a, b) => order(a) - order(b)))
    readers[reference.element.name]?.(reference, state);
}

/** All text in an element and what it holds. */
function textOf(element: XmlElement): string {
  return [element.text, ...[...descendants(element)].map(({ text }) => text)].join(' ').trim();
}

/** A jump that a text asks for: D.C., D.S., Fine. */
export function jumpsOfText(element: XmlElement) {
  return jumpOfWords(textOf(element), 0);
}

/** A dynamic by its name, else by what it says of MIDI (MEI 5, val), else words such as cresc. */
function dynamSigns(element: XmlElement): readonly Sign[] {
  const text = textOf(element);
  const plain = text.toLowerCase().replace(/[.\s]/gu, '');
  if (isDynamicName(plain)) return [{ kind: 'dynamic', name: plain }];
  const value = numberIn(element, 'val');
  const words = signsOfWords(text);
  return value !== undefined && words.length === 0
    ? [{ kind: 'loudness', percent: (value * 100) / 90 }]
    : words;
}

/** Controllers of MIDI 1.0, by the pedal's function (MEI 5, pedal: func). */
const pedals: Readonly<Record<string, number>> = { sustain: 64, soft: 67, sostenuto: 66 };

function pedalSigns({ attributes }: XmlElement): readonly Sign[] {
  const number = pedals[attributes.get('func') ?? 'sustain'] ?? 64;
  const press = (value: number): Sign => ({ kind: 'controller', number, value });
  switch (attributes.get('dir')) {
    case 'down':
      return [press(127)];
    case 'half':
      return [press(64)];
    case 'bounce':
      return [press(0), press(127)];
    case 'up':
      return [press(0)];
    default:
      return [];
  }
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
  const direction = form === 'cres' ? 1 : -1;
  for (const { signs } of stavesOf(reference, state)) {
    signs.push({ kind: 'hairpin', direction, number, measure: from.measure, offset: from.offset });
    if (to) signs.push({ kind: 'hairpin', direction: 0, number, measure: to.measure, offset: to.offset });
  }
}

/** Quarters a minute: as sounding, else by the metronome mark. */
function tempo(reference: Reference, state: MeiState): void {
  const { element } = reference;
  const unit = quartersOf(element.attributes.get('mm.unit'), numberIn(element, 'mm.dots') ?? 0) ?? 1;
  const marked = numberIn(element, 'mm');
  const quartersPerMinute = tempoOf(element) ?? (marked === undefined ? undefined : marked * unit);
  const spot = spotOf(reference, state);
  if (spot && quartersPerMinute !== undefined && quartersPerMinute > 0)
    state.tempi.push({ quartersPerMinute, measure: spot.measure, offset: spot.offset });
}

/** Chords of one sign are rolled together, upwards where it does not say (MEI 5, arpeg: order). */
function arpeg(reference: Reference, state: MeiState): void {
  const { attributes, line, column } = reference.element;
  const order = attributes.get('order');
  if (order === 'nonarp') return;
  const name = attributes.get('xml:id') ?? `${line}.${column}`;
  for (const note of notesAt(reference, state))
    note.roll = { name, direction: order === 'down' ? 'down' : 'up' };
}

function ornament(reference: Reference, state: MeiState): void {
  const { element } = reference;
  const name = ornamentName(element);
  if (name === undefined) return;
  const notes = notesAt(reference, state);
  // of a chord it is the top note's
  const top = notes.reduce<(typeof notes)[number] | undefined>(
    (best, one) => (best && best.pitch >= one.pitch ? best : one),
    undefined,
  );
  if (!top) {
    spotOf(reference, state);
    return;
  }
  elementOrnament(element, name, top, state);
  if (element.name === 'trill') trillLine(reference, [top], state);
}

/** A breath stands between notes, and is that of the note before it. */
function mark(reference: Reference, state: MeiState): void {
  const name = noteMarks[reference.element.name];
  const named = notesAt(reference, state);
  const notes = named.length > 0 ? named : lastBefore(reference, state);
  for (const note of notes) note.marks = [...note.marks, ...(name === undefined ? [] : [name])];
}

function lastBefore(reference: Reference, state: MeiState): readonly DraftNote[] {
  const spot = spotOf(reference, state);
  if (!spot) return [];
  return stavesOf(reference, state).flatMap(({ notes }) => {
    const before = within(notes, spot.measure, spot.measure).filter(({ offset }) => offset < spot.offset);
    const last = largest(
      before.map(({ offset }) => offset),
      -1,
    );
    return before.filter(({ offset }) => offset === last);
  });
}
