import { isDynamicName } from '../loudness.js';
import type { Jump, Sign } from '../model.js';
import { child, childrenOf, textAt, type XmlElement } from '../xml/element.js';
import { placeOf } from './attributes.js';
import { writtenQuarters } from './length.js';
import { readSound } from './sound.js';
import { type PartState, passesOf, putJump, ticksOf } from './state.js';
import { jumpOfWords, signsOfWords } from './words.js';

/** A `direction`: dynamics, hairpins, pedal, playing words, tempo, signs of repetition, and the sound it describes. */
export function readDirection(element: XmlElement, state: PartState): void {
  const offset = ticksOf(state, placeOf(element, state));
  const sound = child(element, 'sound');
  const inside = childrenOf(element, 'direction-type').flatMap(({ children }) => children);
  const passes = passesOf(sound);
  const put = (sign: Sign) => state.signs.push({ ...sign, measure: state.measure, offset, ...passes });
  for (const one of inside) for (const sign of signsOf(one, sound)) put(sign);
  if (sound) readSound(sound, state, offset);
  if (sound?.attributes.has('tempo') !== true) {
    const tempo = inside.filter(({ name }) => name === 'metronome').flatMap(metronomeTempo)[0];
    if (tempo !== undefined) state.tempi.push({ quartersPerMinute: tempo, measure: state.measure, offset });
  }
  const says = (attribute: string) => sound?.attributes.has(attribute) === true;
  const isSaid = ['dacapo', 'dalsegno', 'tocoda', 'fine', 'segno', 'coda'].some(says);
  if (!isSaid) for (const one of inside) putJump(jumpOf(one, offset), state);
}

function jumpOf({ name, text }: XmlElement, offset: number): Jump | undefined {
  if (name === 'segno' || name === 'coda') return { kind: name, name: '' };
  return name === 'words' ? jumpOfWords(text, offset) : undefined;
}

function signsOf(element: XmlElement, sound: XmlElement | undefined): readonly Sign[] {
  switch (element.name) {
    case 'dynamics':
      return element.children.flatMap(dynamicOf);
    case 'wedge':
      return wedgeOf(element);
    case 'words':
      return wordsOf(element, sound);
    case 'string-mute':
      return [{ kind: 'mark', name: element.attributes.get('type') === 'off' ? 'senza sord.' : 'con sord.' }];
    case 'pedal':
      return sound?.attributes.has('damper-pedal') === true ? [] : pedalOf(element);
    default:
      return [];
  }
}

/** Words that the sound beside them says as well are taken from there. */
function wordsOf({ text }: XmlElement, sound: XmlElement | undefined): readonly Sign[] {
  const signs = signsOfWords(text);
  if (sound?.attributes.has('pizzicato') !== true) return signs;
  return signs.filter((sign) => !(sign.kind === 'mark' && (sign.name === 'pizz.' || sign.name === 'arco')));
}

/** A dynamic is known by its element, or by the text of `other-dynamics`. */
export function dynamicOf({ name, text }: XmlElement): readonly Sign[] {
  const plain = name === 'other-dynamics' ? text.trim().toLowerCase() : name;
  return isDynamicName(plain) ? [{ kind: 'dynamic', name: plain }] : [];
}

function wedgeOf({ attributes }: XmlElement): readonly Sign[] {
  const number = attributes.get('number') ?? '1';
  switch (attributes.get('type')) {
    case 'crescendo':
      return [{ kind: 'hairpin', direction: 1, number }];
    case 'diminuendo':
      return [{ kind: 'hairpin', direction: -1, number }];
    case 'stop':
      return [{ kind: 'hairpin', direction: 0, number }];
    default:
      return [];
  }
}

const sustain = 64;
const sostenuto = 66;

function pedalOf({ attributes }: XmlElement): readonly Sign[] {
  const press = (number: number, value: number): Sign => ({ kind: 'controller', number, value });
  switch (attributes.get('type')) {
    case 'start':
    case 'resume':
      return [press(sustain, 127)];
    case 'sostenuto':
      return [press(sostenuto, 127)];
    case 'stop':
    case 'discontinue':
      return [press(sustain, 0), press(sostenuto, 0)];
    case 'change':
      return [press(sustain, 0), press(sustain, 127)];
    default:
      return [];
  }
}

/** Quarters a minute of a metronome mark: "♩. = 80", "♪ = ca. 120". */
function metronomeTempo(element: XmlElement): readonly number[] {
  const dots = childrenOf(element, 'beat-unit-dot').length;
  const unit = writtenQuarters(textAt(element, 'beat-unit'), dots);
  const beats = Number(/\d+(?:\.\d+)?/u.exec(textAt(element, 'per-minute') ?? '')?.[0] ?? 0);
  return unit !== undefined && beats > 0 ? [unit * beats] : [];
}
