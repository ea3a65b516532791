import { largest } from '../largest.js';
import type { Metre } from '../model.js';
import { childrenOf, numberIn, textAt, type XmlElement } from '../xml/element.js';
import { type MeiState, type Staff, staffOf } from './state.js';
import { pitchOf } from './values.js';

/**
 * `scoreDef` and `staffDef`, at the beginning or between bars: names, groups, transposition, metre, key, tempo, channel.
 */
export function readDefinition(element: XmlElement, state: MeiState): void {
  if (element.name === 'staffDef') {
    readStaff(element, state);
    return;
  }
  const metre = metreOf(element, state);
  if (metre !== undefined) {
    state.metre = metre;
    for (const staff of state.staves.values()) staff.metre = null;
  }
  const tempo = tempoOf(element);
  if (tempo !== undefined)
    state.tempi.push({ quartersPerMinute: tempo, measure: state.measures.length, offset: 0 });
  const [num, base] = [numberIn(element, 'num.default'), numberIn(element, 'numbase.default')];
  if (num !== undefined && base !== undefined && num > 0 && base > 0) state.tupletScale = base / num;
  for (const one of element.children) readGroup(one, state, undefined);
  for (const staff of state.staves.values()) {
    readShared(element, staff);
    const key = keyOf(element);
    if (key !== undefined) staff.key = key;
  }
}

/** A brace or group of one name whose staves have none of their own is one instrument. */
function readGroup(element: XmlElement, state: MeiState, group: XmlElement | undefined): void {
  if (element.name === 'staffDef') {
    const staff = readStaff(element, state);
    if (group && nameOf(element) === undefined && staff.name === '') {
      staff.name = nameOf(group) ?? '';
      staff.group = group.attributes.get('xml:id') ?? `${group.line}.${group.column}`;
    }
    const channel = group && channelOf(group);
    if (staff.channel === null && channel !== undefined) staff.channel = channel;
    return;
  }
  if (element.name !== 'staffGrp') return;
  const isNamed = nameOf(element) !== undefined;
  for (const one of element.children) readGroup(one, state, isNamed ? element : undefined);
}

function nameOf(element: XmlElement): string | undefined {
  const name = element.attributes.get('label') ?? textAt(element, 'label');
  return name?.trim() === '' ? undefined : name?.trim();
}

function readStaff(element: XmlElement, state: MeiState): Staff {
  const staff = staffOf(state, element.attributes.get('n') ?? '1');
  const name = nameOf(element);
  if (name !== undefined) staff.name = name;
  readShared(element, staff);
  const clef =
    element.attributes.get('clef.shape') ?? childrenOf(element, 'clef')[0]?.attributes.get('shape');
  if (clef !== undefined) staff.isPercussion = clef === 'perc';
  staff.metre = metreOf(element, state) ?? staff.metre;
  staff.key = keyOf(element) ?? staff.key;
  staff.channel = channelOf(element) ?? staff.channel;
  for (const tuning of childrenOf(element, 'tuning'))
    for (const course of childrenOf(tuning, 'course')) {
      const pitch = pitchOf(course);
      if (pitch !== undefined) staff.courses.set(course.attributes.get('n') ?? '', pitch);
    }
  return staff;
}

/** What both kinds of definitions may say of a staff. */
function readShared(element: XmlElement, staff: Staff): void {
  staff.transposition = transpositionOf(element) ?? staff.transposition;
  const ppq = numberIn(element, 'ppq');
  if (ppq !== undefined && ppq > 0) staff.ppq ??= ppq;
}

/** Semitones of the intervals that whole steps of a scale are, where only steps are given: major and perfect ones. */
const diatonic = [0, 2, 4, 5, 7, 9, 11];

function transpositionOf(element: XmlElement): number | undefined {
  const semitones = numberIn(element, 'trans.semi');
  const steps = numberIn(element, 'trans.diat');
  if (semitones !== undefined || steps === undefined || !Number.isInteger(steps)) return semitones;
  const size = Math.abs(steps);
  return Math.sign(steps) * (12 * Math.floor(size / 7) + (diatonic[size % 7] ?? 0));
}

/** Key signatures are counted: "3s", "2f", "0". undefined where none is told. */
export function keyOf(element: XmlElement): number | undefined {
  const inner = childrenOf(element, 'keySig')[0];
  const text =
    (element.name === 'keySig' ? element.attributes.get('sig') : undefined) ??
    element.attributes.get('keysig') ??
    element.attributes.get('key.sig') ??
    inner?.attributes.get('sig');
  const count = /^(\d{1,2})([sf]?)$/u.exec(text?.trim() ?? '');
  return count ? Number(count[1]) * (count[2] === 'f' ? -1 : 1) : undefined;
}

/** The channel of an instrument; one-based values end in "o" (MEI 5, data.MIDICHANNEL). */
function channelOf(element: XmlElement): number | undefined {
  const text =
    childrenOf(element, 'instrDef')[0]?.attributes.get('midi.channel') ??
    element.attributes.get('midi.channel');
  const parts = /^(\d{1,2})(o?)$/u.exec(text?.trim() ?? '');
  const channel = parts ? Number(parts[1]) - (parts[2] === 'o' ? 1 : 0) : -1;
  return channel >= 0 && channel <= 15 ? channel : undefined;
}

/** Quarters a minute, by beats or by microseconds of a quarter. */
export function tempoOf(element: XmlElement): number | undefined {
  const microseconds = numberIn(element, 'midi.mspb');
  const tempo =
    numberIn(element, 'midi.bpm') ??
    (microseconds !== undefined && microseconds > 0 ? 60_000_000 / microseconds : undefined);
  return tempo !== undefined && tempo > 0 ? tempo : undefined;
}

/** By attributes, or a `meterSig` in it: "3+2" is 5; a mixed group of them is their sum. undefined where none is told; null without metre. */
export function metreOf(element: XmlElement, state: MeiState): Metre | null | undefined {
  const group = childrenOf(element, 'meterSigGrp')[0];
  if (group) return groupMetre(group, state);
  const inner = element.name === 'meterSig' ? element : childrenOf(element, 'meterSig')[0];
  const said = (short: string) =>
    (element.name === 'meterSig' ? undefined : element.attributes.get(`meter.${short}`)) ??
    inner?.attributes.get(short);
  const [count, unit, symbol] = [said('count'), Number(said('unit')), said('sym')];
  if (count === undefined) {
    if (symbol === 'open') return null;
    return symbol === 'cut' ? { beats: 2, beatType: 2 } : symbol ? { beats: 4, beatType: 4 } : undefined;
  }
  const beats = count.split('+').reduce((sum, one) => sum + Number(one), 0);
  const isMetre =
    Number.isInteger(beats) && beats > 0 && beats <= 255 && Number.isInteger(Math.log2(unit)) && unit <= 1024;
  if (isMetre) return { beats, beatType: unit };
  const where = inner ?? element;
  state.found.warning(
    'score-value',
    where,
    `the metre ${count.slice(0, 20)}/${said('unit')?.slice(0, 20) ?? ''} means nothing`,
    'count="3" or "3+2", and a unit of 1, 2, 4, 8 …',
  );
  return undefined;
}

function groupMetre(group: XmlElement, state: MeiState): Metre | undefined {
  const metres = childrenOf(group, 'meterSig').flatMap((one) => metreOf(one, state) ?? []);
  const [first] = metres;
  if (!first || group.attributes.get('func') !== 'mixed') return first;
  const beatType = largest(
    metres.map((one) => one.beatType),
    1,
  );
  return { beats: metres.reduce((sum, one) => sum + (one.beats * beatType) / one.beatType, 0), beatType };
}
