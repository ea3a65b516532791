import type { Jump, Sign } from '../model.js';
import { child, numberAt, numberIn, textAt, type XmlElement } from '../xml/element.js';
import { muteOf } from './note.js';
import { type PartState, passesOf, putJump, ticksOf } from './state.js';

/** Controllers of MIDI 1.0 that a sound may set. */
const pedals = { 'damper-pedal': 64, 'sostenuto-pedal': 66, 'soft-pedal': 67 } as const;
const panController = 10;

/** The attributes and children of a `sound` (MusicXML 4.0): tempo, dynamics, jumps, pedals, pan, pizzicato, mutes, swing. */
export function readSound(sound: XmlElement, state: PartState, offset: number): void {
  const passes = passesOf(sound);
  const put = (sign: Sign) => state.signs.push({ ...sign, measure: state.measure, offset, ...passes });
  readTempo(sound, state, offset);
  const dynamics = numberIn(sound, 'dynamics');
  if (dynamics !== undefined && dynamics >= 0) put({ kind: 'loudness', percent: dynamics });
  const pizzicato = sound.attributes.get('pizzicato');
  if (pizzicato === 'yes') put({ kind: 'mark', name: 'pizz.' });
  if (pizzicato === 'no') put({ kind: 'mark', name: 'arco' });
  for (const name of muteOf(child(sound, 'play'))) put({ kind: 'mark', name });
  for (const [attribute, number] of Object.entries(pedals)) {
    const value = pedalValue(sound.attributes.get(attribute));
    if (value !== undefined) put({ kind: 'controller', number, value });
  }
  const pan = numberIn(sound, 'pan');
  if (pan !== undefined) put({ kind: 'controller', number: panController, value: panValue(pan) });
  readSwing(sound, state, offset);
  for (const jump of jumpsOf(sound, offset)) putJump(jump, state);
}

function readTempo(sound: XmlElement, state: PartState, offset: number): void {
  const tempo = numberIn(sound, 'tempo');
  if (!sound.attributes.has('tempo')) return;
  if (tempo !== undefined && tempo > 0)
    state.tempi.push({ quartersPerMinute: tempo, measure: state.measure, offset, ...passesOf(sound) });
  // 0 is what some programs write for none
  else if (tempo !== 0)
    state.found.warning(
      'score-value',
      sound,
      `the tempo "${sound.attributes.get('tempo')?.slice(0, 40)}" means nothing`,
      'quarter notes a minute, above 0',
    );
}

/** yes, no, or how far down in percent. */
function pedalValue(text: string | undefined): number | undefined {
  if (text === 'yes') return 127;
  if (text === 'no') return 0;
  const percent = Number(text);
  return text !== undefined && percent >= 0 && percent <= 100 ? Math.round(1.27 * percent) : undefined;
}

/** Degrees to the left and right, 0 before the listener; what is behind is heard at its side's edge. */
function panValue(degrees: number): number {
  const side = Math.max(-90, Math.min(90, degrees));
  return Math.max(0, Math.min(127, Math.round(64 + (63 * side) / 90)));
}

function readSwing(sound: XmlElement, state: PartState, offset: number): void {
  const swing = child(sound, 'swing');
  if (!swing) return;
  const isStraight = child(swing, 'straight') !== undefined;
  const [first, second] = isStraight ? [1, 1] : [numberAt(swing, 'first'), numberAt(swing, 'second')];
  if (first === undefined || second === undefined || first <= 0 || second <= 0) {
    state.found.warning(
      'score-value',
      swing,
      'a swing without two numbers above 0',
      '<first>2</first><second>1</second>, or <straight/>',
    );
    return;
  }
  const unit = textAt(swing, 'swing-type') === '16th' ? state.ppq / 4 : state.ppq / 2;
  state.swings.push({ first, second, unit, measure: state.measure, offset });
}

function jumpsOf(sound: XmlElement, offset: number): readonly Jump[] {
  const passes = passesOf(sound);
  const name = (attribute: string) => sound.attributes.get(attribute);
  const jumps: Jump[] = [];
  const [segno, coda, dalsegno, tocoda] = ['segno', 'coda', 'dalsegno', 'tocoda'].map(name);
  if (segno !== undefined) jumps.push({ kind: 'segno', name: segno });
  if (coda !== undefined) jumps.push({ kind: 'coda', name: coda });
  if (name('dacapo') === 'yes') jumps.push({ kind: 'dacapo', offset, ...passes });
  if (dalsegno !== undefined) jumps.push({ kind: 'dalsegno', name: dalsegno, offset, ...passes });
  if (tocoda !== undefined) jumps.push({ kind: 'tocoda', name: tocoda, offset, ...passes });
  if (name('fine') !== undefined) jumps.push({ kind: 'fine', offset, ...passes });
  return jumps;
}

/** A `sound` that stands by itself in a bar. */
export function readLoneSound(sound: XmlElement, state: PartState, quarters: number): void {
  readSound(sound, state, ticksOf(state, quarters));
}
