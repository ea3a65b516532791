import type { Grace, ScoreNote } from '../model.js';
import { child, childrenOf, numberAt, numberIn, textAt, type XmlElement } from '../xml/element.js';
import { glide } from './glides.js';
import { writtenQuarters } from './length.js';
import { type Notations, readNotations } from './notations.js';
import { ornamentsOf, spelledPitch, underLines } from './ornaments.js';
import { atPitch, semitonesOf } from './pitch.js';
import { type Draft, type PartState, passesOf, ticksOf } from './state.js';

/** A `note` of a bar. Rests and cue notes only take their time. */
export function readNote(element: XmlElement, state: PartState): void {
  const grace = child(element, 'grace');
  const isChordTone = child(element, 'chord') !== undefined;
  const quarters = grace ? 0 : lengthOf(element, state);
  const onset = isChordTone ? state.onset : state.cursor;
  if (!isChordTone) {
    state.onset = state.cursor;
    state.cursor += quarters;
    state.furthest = Math.max(state.furthest, state.cursor);
  }
  const isSilent = child(element, 'rest') !== undefined || child(element, 'cue') !== undefined;
  const pitch = isSilent ? undefined : pitchOf(element, state);
  if (pitch === undefined) return;
  const offset = ticksOf(state, onset);
  const notations = readNotations(element);
  const note: Draft<ScoreNote> = {
    ...identity(element, state),
    measure: state.measure,
    offset,
    duration: ticksOf(state, onset + quarters) - offset,
    pitch,
    isChordTone,
    grace: grace ? readGrace(grace, element, state) : null,
    ...tiesOf(element, notations),
    isSlurred: false,
    marks: [...notations.marks, ...pizzicatoOf(element), ...muteOf(child(element, 'play'))],
    ornaments: [],
    roll: notations.roll,
    ...playbackOf(element, state),
    ...passesOf(element),
  };
  state.notes.push(note);
  ornament(note, element, state);
  glide(note, notations.glides, state);
  double(note, element, state);
  for (const { type, number, element: slur } of notations.slurs)
    if (type === 'start' || type === 'stop')
      state.slurs.push({ type, number, measure: state.measure, note, line: slur.line, column: slur.column });
}

/** Signs that are played out, as key and accidentals before the note have them. */
function ornament(note: Draft<ScoreNote>, element: XmlElement, state: PartState): void {
  note.ornaments = ornamentsOf(element, note, state);
  underLines(element, note, state);
  const spelled = spelledPitch(element);
  if (spelled) state.alters.set(`${note.staff} ${spelled.step} ${spelled.octave}`, spelled.alter);
}

function identity(element: XmlElement, state: PartState) {
  return {
    id: element.attributes.get('id') ?? `${state.head.id}.${state.measure + 1}.${state.notes.length + 1}`,
    voice: textAt(element, 'voice') ?? '1',
    staff: staffOf(element),
    line: element.line,
    column: element.column,
  };
}

function staffOf(element: XmlElement): number {
  return numberAt(element, 'staff') ?? 1;
}

function tiesOf(element: XmlElement, { tiedTypes }: Notations) {
  const ties = [...childrenOf(element, 'tie').map(({ attributes }) => attributes.get('type')), ...tiedTypes];
  return { tiedFrom: ties.includes('stop'), tiedTo: ties.includes('start') };
}

/** What a note says of its own sound: dynamics in % of forte, attack and release in divisions. */
function playbackOf(element: XmlElement, state: PartState) {
  const shift = (attribute: string) => ticksOf(state, (numberIn(element, attribute) ?? 0) / state.divisions);
  return {
    loudness: numberIn(element, 'dynamics') ?? null,
    attack: shift('attack'),
    release: shift('release'),
  };
}

/** A transposing instrument may be doubled at the octave (MusicXML 4.0, `double`). */
function double(note: Draft<ScoreNote>, element: XmlElement, state: PartState): void {
  const { transpositions } = state;
  const octave = (transpositions.get(note.staff) ?? transpositions.get(0) ?? atPitch).double;
  const pitch = note.pitch + octave;
  if (octave === 0 || !child(element, 'pitch') || pitch < 0 || pitch > 127) return;
  state.notes.push({ ...note, id: `${note.id}-double`, pitch, isChordTone: true });
}

function pitchOf(element: XmlElement, state: PartState): number | undefined {
  const semitones = soundingPitch(element, staffOf(element), state);
  return semitones === undefined ? undefined : wholePitch(semitones, element, state);
}

function lengthOf(element: XmlElement, state: PartState): number {
  const duration = child(element, 'duration');
  const value = numberAt(element, 'duration');
  if (value !== undefined && value >= 0) return value / state.divisions;
  if (duration)
    state.found.error(
      'score-value',
      duration,
      `the duration is "${duration.text.slice(0, 40)}"`,
      'a number above 0, in divisions',
    );
  else
    state.found.error(
      'score-missing',
      element,
      'a note has no duration',
      'every note but a grace note has one',
    );
  return 0;
}

function soundingPitch(element: XmlElement, staff: number, state: PartState): number | undefined {
  const pitch = child(element, 'pitch');
  if (pitch) {
    const written = semitonesOf(pitch);
    if (written === undefined) {
      state.found.error(
        'score-value',
        pitch,
        'a pitch without a step from A to G and an octave',
        '<step>C</step><octave>4</octave>',
      );
      return undefined;
    }
    const { semitones } = state.transpositions.get(staff) ?? state.transpositions.get(0) ?? atPitch;
    return written + semitones;
  }
  const unpitched = child(element, 'unpitched');
  if (!unpitched) {
    state.found.error(
      'score-missing',
      element,
      'a note without pitch, unpitched or rest',
      'say one of the three',
    );
    return undefined;
  }
  return keyOf(element, unpitched, state);
}

/** The key of a percussion note: its instrument's, else the line of the staff that it stands on. */
function keyOf(element: XmlElement, unpitched: XmlElement, state: PartState): number {
  const { keys, firstInstrument } = state.head;
  const instrument = child(element, 'instrument')?.attributes.get('id') ?? firstInstrument ?? '';
  const key = keys.get(instrument) ?? (keys.size === 1 ? [...keys.values()][0] : undefined);
  if (key !== undefined) return key;
  if (!state.toldKey)
    state.found.warning(
      'score-no-key',
      unpitched,
      `part "${state.head.name}" does not say which key its percussion is on`,
      'midi-unpitched of its midi-instrument; the place on the staff is taken for the key',
    );
  state.toldKey = true;
  return semitonesOf(unpitched, 'display-') ?? 60;
}

function wholePitch(semitones: number, element: XmlElement, state: PartState): number | undefined {
  const pitch = Math.round(semitones);
  if (pitch < 0 || pitch > 127) {
    state.found.error(
      'score-value',
      element,
      `a note lies at ${pitch}, and MIDI has 0–127`,
      'see octave and transposition',
    );
    return undefined;
  }
  if (pitch !== semitones && !state.toldMicrotone) {
    state.found.warning(
      'score-microtone',
      element,
      `part "${state.head.name}" has pitches between two keys`,
      'each is moved to the nearer key',
    );
    state.toldMicrotone = true;
  }
  return pitch;
}

function readGrace(grace: XmlElement, note: XmlElement, state: PartState): Grace {
  const share = (attribute: string) => {
    const percent = numberIn(grace, attribute);
    return percent === undefined ? null : Math.max(0, Math.min(1, percent / 100));
  };
  const makeTime = numberIn(grace, 'make-time');
  const written = writtenQuarters(textAt(note, 'type'), childrenOf(note, 'dot').length) ?? 0.5;
  return {
    hasSlash: grace.attributes.get('slash') === 'yes',
    written: ticksOf(state, written),
    stealPrevious: share('steal-time-previous'),
    stealFollowing: share('steal-time-following'),
    makeTime: makeTime === undefined ? null : ticksOf(state, makeTime / state.divisions),
  };
}

/** The attribute `pizzicato` of a note, which is about this note only. */
function pizzicatoOf(element: XmlElement): readonly string[] {
  const value = element.attributes.get('pizzicato');
  return value === 'yes' ? ['pizz.'] : value === 'no' ? ['arco'] : [];
}

const mutes: ReadonlyMap<string, string> = new Map([
  ['off', 'senza sord.'],
  ['stop-hand', 'stopped'],
  ['stop-mute', 'stopped'],
  ['harmon-no-stem', 'harmon-mute'],
  ['harmon-stem', 'harmon-mute'],
]);

/** The mark of a `play` element's mute: every mute without a mark of its own is `con sord.`. */
export function muteOf(play: XmlElement | undefined): readonly string[] {
  const mute = textAt(play, 'mute');
  return mute === undefined ? [] : [mutes.get(mute) ?? 'con sord.'];
}
