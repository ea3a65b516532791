import { largest } from '../largest.js';
import type { Metre } from '../model.js';
import { child, childrenOf, numberAt, numberIn, numberOf, textAt, type XmlElement } from '../xml/element.js';
import { atPitch, readTransposition } from './pitch.js';
import type { PartState } from './state.js';

/** `attributes` of a bar: divisions, key, metre, transposition. What is wrong is reported, and what was in force stays. */
export function readAttributes(element: XmlElement, state: PartState): void {
  const divisions = child(element, 'divisions');
  if (divisions) {
    const value = numberOf(divisions.text);
    if (value === undefined || value <= 0)
      state.found.error(
        'score-value',
        divisions,
        `divisions is "${divisions.text.slice(0, 40)}"`,
        'a number above 0: parts of a quarter note',
      );
    else {
      state.divisions = value;
      state.hasDivisions = true;
    }
  }
  for (const key of childrenOf(element, 'key')) {
    const fifths = numberAt(key, 'fifths');
    if (fifths !== undefined) state.keys.set(numberIn(key, 'number') ?? 0, fifths);
  }
  const time = child(element, 'time');
  if (time) state.metre = readTime(time, state);
  for (const transpose of childrenOf(element, 'transpose')) putTransposition(transpose, transpose, state);
  for (const forPart of childrenOf(element, 'for-part')) {
    // in a score at concert pitch this says how the part will be written, not how it sounds
    if (state.isConcertPitch) continue;
    const transpose = child(forPart, 'part-transpose');
    if (transpose) putTransposition(transpose, forPart, state);
  }
}

function putTransposition(transpose: XmlElement, owner: XmlElement, state: PartState): void {
  state.transpositions.set(
    numberIn(owner, 'number') ?? 0,
    state.isConcertPitch ? atPitch : readTransposition(transpose),
  );
}

/** A metre of several pairs is their sum over the smallest note among them: 3/8 + 2/4 is 7/8. */
function readTime(time: XmlElement, state: PartState): Metre | null {
  if (child(time, 'senza-misura')) return null;
  const beats = childrenOf(time, 'beats').map(({ text }) => sumOf(text));
  const types = childrenOf(time, 'beat-type').map(({ text }) => numberOf(text) ?? 0);
  const beatType = largest(types, 0);
  const isRight =
    beats.length > 0 &&
    beats.length === types.length &&
    beats.every((one) => one > 0 && one <= 255) &&
    types.every((one) => Number.isInteger(Math.log2(one)) && one <= 1024);
  if (!isRight) {
    const said = `${textAt(time, 'beats') ?? ''}/${textAt(time, 'beat-type') ?? ''}`;
    state.found.warning(
      'score-value',
      time,
      `the metre ${said.slice(0, 40)} means nothing`,
      'beats like "3" or "3+2", and a beat-type of 1, 2, 4, 8 …',
    );
    return state.metre;
  }
  return {
    beats: beats.reduce((sum, one, index) => sum + one * (beatType / (types[index] ?? beatType)), 0),
    beatType,
  };
}

/** "3+2" is 5; 0 for what is no such sum. */
function sumOf(text: string): number {
  const parts = text.split('+').map((one) => numberOf(one));
  return parts.every((one) => one !== undefined && Number.isInteger(one))
    ? parts.reduce<number>((sum, one) => sum + (one ?? 0), 0)
    : 0;
}

/** Where a direction or sound stands. Unit: quarters. */
export function placeOf(element: XmlElement, state: PartState): number {
  const offset = child(element, 'offset');
  if (!offset) return state.cursor;
  // an offset of a direction moves only what is printed, unless it says that it moves the sound (MusicXML 4.0, offset)
  if (element.name === 'direction' && offset.attributes.get('sound') !== 'yes') return state.cursor;
  return Math.max(0, state.cursor + (numberAt(element, 'offset') ?? 0) / state.divisions);
}
