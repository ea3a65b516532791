import { figureOf } from '../figures.js';
import type { Figure, FigureSound, Ornament, ScoreNote } from '../model.js';
import { inflected, keyAlter, type Neighbours, neighboursOf, type Spelled } from '../neighbours.js';
import { child, childrenOf, numberAt, numberIn, textAt, type XmlElement } from '../xml/element.js';
import { writtenQuarters } from './length.js';
import type { Draft, PartState } from './state.js';

const steps = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];

/** Alterations of `accidental-mark` (MusicXML 4.0, accidental-value). */
const accidentals: ReadonlyMap<string, number> = new Map([
  ['sharp', 1],
  ['natural', 0],
  ['flat', -1],
  ['double-sharp', 2],
  ['sharp-sharp', 2],
  ['flat-flat', -2],
  ['natural-sharp', 1],
  ['natural-flat', -1],
]);

/** A note's pitch as it is written; undefined for percussion. */
export function spelledPitch(note: XmlElement): Spelled | undefined {
  const pitch = child(note, 'pitch');
  const step = steps.indexOf(textAt(pitch, 'step') ?? '');
  const octave = numberAt(pitch, 'octave');
  return step < 0 || octave === undefined
    ? undefined
    : { step, octave, alter: Math.round(numberAt(pitch, 'alter') ?? 0) };
}

/** What is played out on a note: its own signs, and its chord's tremolo. */
export function ornamentsOf(element: XmlElement, note: ScoreNote, state: PartState): readonly Ornament[] {
  const own = readSigns(element, note, state);
  const tremolos = own.filter(({ kind }) => kind === 'tremolo' || kind === 'alternation');
  if (!note.isChordTone) state.chordTremolo = tremolos;
  const inherited = note.isChordTone && tremolos.length === 0 ? state.chordTremolo : [];
  return [...merged(own.filter(isTrill)), ...inherited, ...own.filter((one) => !isTrill(one))];
}

function isTrill(ornament: Ornament): ornament is Figure {
  return ornament.kind === 'trill';
}

/** A trill-mark and its wavy line are one trill. */
function merged(trills: readonly Figure[]): readonly Figure[] {
  const [first] = trills;
  if (!first) return [];
  const marks = [...new Set(trills.flatMap((one) => one.marks))];
  return [{ ...first, marks, hasLine: trills.some(({ hasLine }) => hasLine) }];
}

/**
 * Trills the notes under a wavy line that begins at an earlier one, once it ends: a line without an end goes over its own
 * note only.
 */
export function underLines(element: XmlElement, note: Draft<ScoreNote>, state: PartState): void {
  const { voice, staff } = note;
  const figure = note.grace
    ? undefined
    : figureOf('wavy-line', neighboursOf(spelledPitch(element), alters(staff, state)));
  for (const line of state.waves.values())
    if (figure && line.voice === voice) line.notes.push({ note, figure: { ...figure, marks: line.marks } });
  for (const { attributes, name } of signsOf(element)) {
    if (name !== 'wavy-line') continue;
    const number = attributes.get('number') ?? '1';
    const marks = note.marks.filter((mark) => mark === 'trill-mark' || mark === 'wavy-line');
    if (attributes.get('type') === 'start') state.waves.set(number, { voice, marks, notes: [] });
    if (attributes.get('type') === 'stop') {
      for (const under of state.waves.get(number)?.notes ?? []) trill(under.note, under.figure);
      state.waves.delete(number);
    }
  }
}

function trill(note: Draft<ScoreNote>, figure: Figure): void {
  note.marks = [...new Set([...note.marks, ...figure.marks])];
  const own = note.ornaments.filter(isTrill);
  note.ornaments = [...merged([...own, figure]), ...note.ornaments.filter((one) => !isTrill(one))];
}

function signsOf(element: XmlElement): readonly XmlElement[] {
  return childrenOf(element, 'notations')
    .flatMap((notations) => childrenOf(notations, 'ornaments'))
    .flatMap(({ children }) => children);
}

/** How a step is altered here: by accidentals in the bar before, else by the key. */
function alters(staff: number, state: PartState): AlterOf {
  const fifths = state.keys.get(staff) ?? state.keys.get(0) ?? 0;
  return (step, octave) => state.alters.get(`${staff} ${step} ${octave}`) ?? keyAlter(fifths, step);
}

/** The signs of a note's `ornaments`, in order of the file. */
function readSigns(note: XmlElement, { staff }: ScoreNote, state: PartState): readonly Ornament[] {
  const spelled = spelledPitch(note);
  const inKey = alters(staff, state);
  return childrenOf(note, 'notations')
    .flatMap((notations) => childrenOf(notations, 'ornaments'))
    .flatMap(({ children }) =>
      children.flatMap((one, index): readonly Ornament[] => {
        if (one.name === 'tremolo') return tremoloOf(one, note, state);
        const marks = accidentalsBehind(children, index);
        const distances = distancesOf(one, spelled, inKey, marks);
        const isLong = one.attributes.get('long') === 'yes';
        const figure = figureOf(nameOf(one), distances, soundOf(one), isLong);
        const isBegun = one.name !== 'wavy-line' || one.attributes.get('type') === 'start';
        return figure && isBegun ? [figure] : [];
      }),
    );
}

function nameOf({ name, text }: XmlElement): string {
  return name === 'other-ornament' ? text.trim().toLowerCase() : name;
}

/** The accidentals of an ornament stand behind it. */
function accidentalsBehind(all: readonly XmlElement[], index: number): readonly XmlElement[] {
  const behind = all.slice(index + 1);
  const end = behind.findIndex(({ name }) => name !== 'accidental-mark');
  return end < 0 ? behind : behind.slice(0, end);
}

type AlterOf = (step: number, octave: number) => number;

function distancesOf(
  ornament: XmlElement,
  spelled: Spelled | undefined,
  inKey: AlterOf,
  marks: readonly XmlElement[],
): Neighbours {
  const [above, below] = altersOf(ornament.name, marks);
  const { upper, lower, third } = inflected(neighboursOf(spelled, inKey), spelled, above, below);
  const said = { whole: 2, half: 1, unison: 0 }[ornament.attributes.get('trill-step') ?? ''];
  return { upper: said ?? upper, lower: said ?? lower, third };
}

/** What accidental marks make of the notes above and below. One without placement is of the note that the sign adds first. */
function altersOf(
  name: string,
  marks: readonly XmlElement[],
): readonly [number | undefined, number | undefined] {
  const isFromBelow = ['mordent', 'inverted-turn', 'delayed-inverted-turn', 'schleifer'].includes(name);
  let [above, below]: [number | undefined, number | undefined] = [undefined, undefined];
  for (const { attributes, text } of marks) {
    const alter = accidentals.get(text);
    if (alter === undefined) continue;
    const placement = attributes.get('placement');
    const isBelow = placement === undefined ? isFromBelow && below === undefined : placement === 'below';
    if (isBelow) below = alter;
    else above = alter;
  }
  return [above, below];
}

function soundOf(element: XmlElement): FigureSound {
  const share = (attribute: string) => {
    const percent = numberIn(element, attribute);
    return percent === undefined ? null : Math.max(0, Math.min(1, percent / 100));
  };
  const start = element.attributes.get('start-note');
  const beats = numberIn(element, 'beats');
  return {
    start: start === 'upper' || start === 'main' || start === 'below' ? start : null,
    ending: { whole: 2, half: 1 }[element.attributes.get('two-note-turn') ?? ''] ?? null,
    beats: beats !== undefined && beats >= 2 ? beats : null,
    accelerates: element.attributes.get('accelerate') === 'yes',
    second: share('second-beat'),
    last: share('last-beat'),
  };
}

/** A tremolo's strokes are its marks and the beams or flags of the note (MusicXML 4.0, tremolo). */
function tremoloOf(element: XmlElement, note: XmlElement, state: PartState): readonly Ornament[] {
  const type = element.attributes.get('type') ?? 'single';
  const marks = strokes(element);
  const written = writtenQuarters(textAt(note, 'type'), 0) ?? 1;
  const flags = Math.max(0, -Math.log2(written));
  const isMeasured = type !== 'unmeasured' && marks > 0;
  const isInTurn = type === 'start' || type === 'stop';
  const ratio = tupletScale(note);
  // the ratio of notes in turn has their halves in it
  const scale = isInTurn && ratio !== 1 ? 2 * ratio : ratio;
  const stroke = isMeasured ? Math.max(1, (scale * state.ppq) / 2 ** (marks + flags)) : null;
  // a library's tremolo is of one note
  if (isInTurn) return [{ kind: 'alternation', marks: ['tremolo'], stroke, isSecond: type === 'stop' }];
  return [{ kind: 'tremolo', marks: ['tremolo'], stroke, isRepetition: isMeasured && marks + flags < 3 }];
}

/** What a tuplet makes of lengths (MusicXML 4.0, time-modification). */
function tupletScale(note: XmlElement): number {
  const ratio = child(note, 'time-modification');
  const [actual, normal] = [numberAt(ratio, 'actual-notes'), numberAt(ratio, 'normal-notes')];
  return actual !== undefined && normal !== undefined && actual > 0 && normal > 0 ? normal / actual : 1;
}

/** Marks on the stem; 3 where the number is left out or wrong (MusicXML 4.0: 0–8). */
function strokes(tremolo: XmlElement): number {
  const marks = Number(tremolo.text);
  return tremolo.text !== '' && Number.isInteger(marks) && marks >= 0 && marks <= 8 ? marks : 3;
}
