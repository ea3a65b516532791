import type { Grace } from '../model.js';
import { barTicks } from '../musicxml/measures.js';
import { childrenOf, numberIn, type XmlElement } from '../xml/element.js';
import { type DraftNote, type MeiState, ppq, type Staff, ticks } from './state.js';
import { articulationsOf, pitchOf, quartersOf } from './values.js';

/** A layer while it is read. */
interface Cursor {
  readonly staff: Staff;
  readonly voice: string;
  readonly measure: number;
  /** Quarters from the bar's beginning. */
  at: number;
  /** Written length times this is the real one: 2/3 in a triplet. */
  scale: number;
  /** Marks that all notes have on the way (a tremolo). */
  marks: readonly string[];
  tremolo: number;
  isGrace: boolean;
}

/** Reads a layer of a bar; returns its length. Unit: quarters. */
export function readLayer(element: XmlElement, staff: Staff, measure: number, state: MeiState): number {
  const voice = element.attributes.get('n') ?? '1';
  const cursor: Cursor = { staff, voice, measure, at: 0, scale: 1, marks: [], tremolo: 0, isGrace: false };
  for (const one of element.children) readEvent(one, cursor, state);
  return cursor.at;
}

function readEvent(element: XmlElement, cursor: Cursor, state: MeiState): void {
  switch (element.name) {
    case 'note':
    case 'chord':
      strike(element, cursor, state);
      return;
    case 'rest':
    case 'space':
      cursor.at += lengthOf(element, cursor, state);
      return;
    case 'mRest':
    case 'mSpace':
    case 'multiRest':
      cursor.at += ((numberIn(element, 'num') ?? 1) * barTicks(cursor.staff.metre ?? state.metre, ppq)) / ppq;
      return;
    case 'mRpt':
      repeatBar(cursor, state);
      return;
    default:
      within(element, cursor, state);
  }
}

/** Elements that hold others: beams, tuplets, tremolos, groups of grace notes. */
function within(element: XmlElement, cursor: Cursor, state: MeiState): void {
  const before = { ...cursor };
  if (element.name === 'tuplet') {
    const [num, base] = [numberIn(element, 'num') ?? 3, numberIn(element, 'numbase') ?? 2];
    if (num > 0 && base > 0) cursor.scale *= base / num;
  }
  if (element.name === 'graceGrp') cursor.isGrace = true;
  if (element.name === 'bTrem' || element.name === 'fTrem') {
    cursor.marks = [...cursor.marks, 'tremolo'];
    cursor.tremolo = 3;
    // each of two notes is written with the length of both
    if (element.name === 'fTrem') cursor.scale /= 2;
  }
  for (const one of element.children) readEvent(one, cursor, state);
  Object.assign(cursor, { ...before, at: cursor.at });
}

function lengthOf(element: XmlElement, cursor: Cursor, state: MeiState): number {
  const quarters = quartersOf(
    element.attributes.get('dur'),
    numberIn(element, 'dots') ?? childrenOf(element, 'dot').length,
  );
  if (quarters !== undefined) return quarters * cursor.scale;
  state.found.error('score-missing', element, `${element.name} without a length`, 'dur="4", and dots');
  return 0;
}

function strike(element: XmlElement, cursor: Cursor, state: MeiState): void {
  const isGrace = cursor.isGrace || element.attributes.has('grace');
  const quarters = lengthOf(element, cursor, state);
  const notes = element.name === 'chord' ? childrenOf(element, 'note') : [element];
  const offset = ticks(cursor.at);
  const struck = notes.flatMap((note, index): DraftNote[] => {
    const pitch = soundingPitch(note, cursor.staff, state);
    if (pitch === undefined) return [];
    return [
      {
        id:
          note.attributes.get('xml:id') ??
          `${cursor.staff.number}.${cursor.measure + 1}.${cursor.staff.notes.length + index + 1}`,
        measure: cursor.measure,
        offset,
        duration: isGrace ? 0 : ticks(cursor.at + quarters) - offset,
        pitch,
        voice: cursor.voice,
        staff: 1,
        isChordTone: index > 0,
        grace: isGrace ? graceOf(element, quarters) : null,
        ...ties(element, note),
        isSlurred: isInSlur(element) || isInSlur(note),
        marks: [
          ...new Set([
            ...cursor.marks,
            ...articulationsOf(element),
            ...(note === element ? [] : articulationsOf(note)),
          ]),
        ],
        ornaments: [],
        roll: null,
        loudness: null,
        attack: 0,
        release: 0,
        line: note.line,
        column: note.column,
      },
    ];
  });
  cursor.staff.notes.push(...struck);
  for (const note of struck) state.byId.set(note.id, [note]);
  const id = element.attributes.get('xml:id');
  if (id !== undefined && struck.length > 0) state.byId.set(id, struck);
  if (!isGrace) cursor.at += quarters;
}

function soundingPitch(note: XmlElement, staff: Staff, state: MeiState): number | undefined {
  const written = pitchOf(note) ?? keyOfLine(note, staff, state);
  const pitch = written === undefined ? undefined : written + staff.transposition;
  if (pitch !== undefined && Number.isInteger(pitch) && pitch >= 0 && pitch <= 127) return pitch;
  const message =
    pitch === undefined ? 'a note without a pitch' : `a note lies at ${pitch}, and MIDI has 0–127`;
  state.found.error('score-value', note, message, 'pname="c" oct="4"');
  return undefined;
}

/** A percussion note without a key is known by its line of the staff only. */
function keyOfLine(note: XmlElement, staff: Staff, state: MeiState): number | undefined {
  const line = numberIn(note, 'loc');
  if (line === undefined) return undefined;
  const message = `staff ${staff.number} does not say which key its percussion is on`;
  if (!staff.toldKey)
    state.found.warning(
      'score-no-key',
      note,
      message,
      'pnum="38"; the place on the staff is taken for the key',
    );
  staff.toldKey = true;
  return 60 + line;
}

/** "unacc" is played before the beat, "acc" on it (MEI 5, data.GRACE). */
function graceOf(element: XmlElement, quarters: number): Grace {
  return {
    hasSlash: element.attributes.get('grace') !== 'acc',
    written: ticks(quarters),
    stealPrevious: null,
    stealFollowing: null,
    makeTime: null,
  };
}

function ties(element: XmlElement, note: XmlElement) {
  const tie = `${element.attributes.get('tie') ?? ''} ${note.attributes.get('tie') ?? ''}`;
  return { tiedFrom: /[mt]/u.test(tie), tiedTo: /[im]/u.test(tie) };
}

/** A slur attribute that begins or goes on here: "i1 t2". */
function isInSlur(element: XmlElement): boolean {
  return /[im]/u.test(element.attributes.get('slur') ?? '');
}

/** The bar before, once more. */
function repeatBar(cursor: Cursor, state: MeiState): void {
  const { staff, voice, measure } = cursor;
  const before = staff.notes.filter((note) => note.measure === measure - 1 && note.voice === voice);
  staff.notes.push(...before.map((note) => ({ ...note, measure, id: `${note.id}-again`, tiedFrom: false })));
  cursor.at += (state.measures[measure - 1]?.length ?? barTicks(state.metre, ppq)) / ppq;
}
