import { largest } from '../largest.js';
import type { Grace, Ornament } from '../model.js';
import { keyAlter, neighboursOf } from '../neighbours.js';
import { childrenOf, numberIn, type XmlElement } from '../xml/element.js';
import { contentOf } from './children.js';
import type { Cursor } from './cursor.js';
import { attributeOrnaments } from './ornaments.js';
import { type DraftNote, type MeiState, ppq, type Staff, ticks } from './state.js';
import { articulationsOf, isInflected, pitchOf, quartersOf, spelledOf, strokesOf } from './values.js';

/** Notes of a voice in a bar. */
export function barKey(voice: string, measure: number): string {
  return `${measure} ${voice}`;
}

export function putInBar(
  notes: readonly DraftNote[],
  { voice, measure }: Pick<Cursor, 'voice' | 'measure'>,
  { byBar }: MeiState,
): void {
  const key = barKey(voice, measure);
  const bar = byBar.get(key) ?? [];
  for (const note of notes) bar.push(note);
  byBar.set(key, bar);
}

/** The real length of an event: as it sounds where that is told, else as it is written. Unit: quarters. */
export function lengthOf(element: XmlElement, cursor: Cursor, state: MeiState): number {
  const { staff, scale, isInTuplet, spans } = cursor;
  const { attributes } = element;
  const dots = numberIn(element, 'dots') ?? childrenOf(element, 'dot').length;
  const gestural = quartersOf(attributes.get('dur.ges'), numberIn(element, 'dots.ges') ?? dots);
  const quarters = gestural ?? quartersOf(attributes.get('dur'), dots) ?? longestOf(element);
  const isTuplet = attributes.has('tuplet') && !isInTuplet && spans.size === 0;
  if (quarters !== undefined) return quarters * (isTuplet ? scale * state.tupletScale : tupletScale(cursor));
  // ticks come last: files write them in divisions that change without being told
  const counted = numberIn(element, 'dur.ppq');
  if (counted !== undefined && counted >= 0 && staff.ppq !== undefined) return counted / staff.ppq;
  // several beside each other are one gap
  const { gap } = cursor;
  if (gap && gap.at === cursor.at && gap.from === staff.notes.length) return 0;
  if (!gap) cursor.gap = { element, at: cursor.at, from: staff.notes.length };
  else state.found.error('score-missing', element, `${element.name} without a length`, 'dur="4", and dots');
  return 0;
}

/** What the tuplets around make of lengths. A span over a tuplet that holds its notes says the same once more. */
function tupletScale({ scale, isInTuplet, spans }: Cursor): number {
  return isInTuplet ? scale : [...spans.values()].reduce((all, one) => all * one, scale);
}

/** A chord's length may stand at its notes. */
function longestOf(chord: XmlElement): number | undefined {
  if (chord.name === 'note') return undefined;
  const lengths = childrenOf(chord, 'note').flatMap((note) => {
    const dots = numberIn(note, 'dots') ?? childrenOf(note, 'dot').length;
    return quartersOf(note.attributes.get('dur'), dots) ?? [];
  });
  return lengths.length > 0 ? largest(lengths, 0) : undefined;
}

/**
 * Of an event without a length the layer lets one be found out: it has what the bar lacks. Told, for what it may be.
 *
 * @param whole the bar's length by its metre. Unit: quarters
 */
export function fillGap(cursor: Cursor, whole: number, state: MeiState): void {
  const { gap, staff } = cursor;
  if (!gap) return;
  const length = whole - cursor.at;
  const { name } = gap.element;
  if (length <= 0) {
    if (name !== 'space' && name !== 'rest')
      state.found.error('score-missing', gap.element, `${name} without a length`, 'dur="4", and dots');
    return;
  }
  const message = `${name} without a length; it is taken to fill its bar`;
  state.found.warning('score-inferred', gap.element, message, 'dur="4", and dots');
  const missing = ticks(length);
  for (const note of staff.notes.slice(gap.from)) {
    const isGap = note.offset === ticks(gap.at) && note.duration === 0 && !note.grace;
    if (isGap) note.duration = missing;
    else note.offset += missing;
  }
  cursor.at += length;
}

/** A note, a chord, or notes of a tablature: struck at once. */
export function strike(element: XmlElement, cursor: Cursor, state: MeiState): void {
  const isGrace = cursor.grace !== null || element.attributes.has('grace');
  const quarters = isGrace ? writtenLength(element) : lengthOf(element, cursor, state);
  const inside =
    element.name === 'note' ? [element] : contentOf(element).filter(({ name }) => name === 'note');
  const offset = ticks(cursor.at);
  const signs = element.attributes.get('cue') === 'true' ? [] : inside;
  const ornaments = tremoloOf(element, quarters, cursor);
  const struck = signs.flatMap((note, index): DraftNote[] => {
    const pitch = soundingPitch(note, cursor.staff, state);
    if (pitch === undefined) return [];
    const made: DraftNote = {
      id:
        note.attributes.get('xml:id') ??
        `${cursor.staff.number}.${cursor.measure + 1}.${cursor.staff.notes.length + index + 1}`,
      measure: cursor.measure,
      offset,
      duration: isGrace ? 0 : ticks(cursor.at + quarters) - offset,
      pitch,
      voice: cursor.voice,
      staff: Number(cursor.staff.number) || 1,
      isChordTone: index > 0,
      grace: isGrace ? graceOf(element, quarters, cursor) : null,
      ...ties(element, note),
      isSlurred: isInSlur(element) || isInSlur(note),
      marks: marksOf(element, note, ornaments),
      ornaments,
      roll: null,
      loudness: loudnessOf(note) ?? loudnessOf(element),
      attack: 0,
      release: 0,
      line: note.line,
      column: note.column,
    };
    remember(made, note, cursor, state);
    for (const one of new Set([element, note])) attributeOrnaments(one.attributes.get('ornam'), made, state);
    return [made];
  });
  for (const note of struck) cursor.staff.notes.push(note);
  putInBar(struck, cursor, state);
  for (const note of struck) state.byId.set(note.id, [note]);
  const id = element.attributes.get('xml:id');
  if (id !== undefined && struck.length > 0) state.byId.set(id, struck);
  if (!isGrace) cursor.at += quarters;
}

function remember(made: DraftNote, note: XmlElement, { staff }: Cursor, state: MeiState): void {
  const spelled = spelledOf(note);
  state.staffOf.set(made, staff);
  const inForce = (step: number, octave: number) =>
    staff.alters.get(`${step} ${octave}`) ?? keyAlter(staff.key, step);
  state.around.set(made, { spelled, neighbours: neighboursOf(spelled, inForce) });
  if (spelled && isInflected(note)) staff.alters.set(`${spelled.step} ${spelled.octave}`, spelled.alter);
  if (note.attributes.has('oct.ges') || note.attributes.has('pnum')) state.performed.add(made);
}

/** Grace notes are short unless they say otherwise. */
function writtenLength(element: XmlElement): number {
  const dots = numberIn(element, 'dots') ?? childrenOf(element, 'dot').length;
  return quartersOf(element.attributes.get('dur'), dots) ?? 0.5;
}

/** A MIDI velocity, as % of forte, which is 90 (MusicXML 4.0, sound). */
function loudnessOf(element: XmlElement): number | null {
  const velocity = numberIn(element, 'vel');
  return velocity === undefined ? null : (velocity * 100) / 90;
}

function marksOf(element: XmlElement, note: XmlElement, ornaments: readonly Ornament[]): readonly string[] {
  const own = [element, ...(note === element ? [] : [note])];
  return [...new Set([...ornaments.flatMap(({ marks }) => marks), ...own.flatMap(articulationsOf)])];
}

/** Strokes by their length, else by the marks on the stem and the flags (MEI 5, unitdur, stem.mod). */
function tremoloOf(element: XmlElement, quarters: number, cursor: Cursor): readonly Ornament[] {
  const { tremolo } = cursor;
  const slashes = strokesOf(element.attributes.get('stem.mod'));
  if (!tremolo && slashes === undefined) return [];
  if (element.attributes.has('grace') || cursor.grace) return [];
  const written = quartersOf(element.attributes.get('dur'), 0) ?? quarters;
  const marks = slashes ?? tremolo?.slashes ?? 3;
  const scale = tupletScale(cursor) * (tremolo?.alternating == null ? 1 : 2);
  const length = scale * (tremolo?.stroke ?? 2 ** -marks * Math.min(1, written));
  const stroke = tremolo?.isMeasured === false ? null : Math.max(1, ticks(length));
  if (tremolo?.alternating == null)
    return [
      { kind: 'tremolo', marks: ['tremolo'], stroke, isRepetition: stroke !== null && stroke > ppq / 8 },
    ];
  tremolo.alternating += 1;
  return [{ kind: 'alternation', marks: ['tremolo'], stroke, isSecond: tremolo.alternating > 1 }];
}

function soundingPitch(note: XmlElement, staff: Staff, state: MeiState): number | undefined {
  const fretted = frettedPitch(note, staff);
  const number = numberIn(note, 'pnum') ?? fretted;
  const plain = pitchOf(note);
  const written = plain === undefined ? keyOfLine(note, staff, state) : plain + byKey(note, staff, state);
  // pnum is the pitch as it sounds
  const exact = number ?? (written === undefined ? undefined : written + staff.transposition);
  const pitch = exact === undefined ? undefined : wholePitch(exact, note, staff, state);
  if (pitch !== undefined && Number.isInteger(pitch) && pitch >= 0 && pitch <= 127) return pitch;
  const message =
    pitch === undefined ? 'a note without a pitch' : `a note lies at ${pitch}, and MIDI has 0–127`;
  state.found.error('score-value', note, message, 'pname="c" oct="4"');
  return undefined;
}

/** A pitch between two keys is moved to the nearer, which is told once for each staff. */
function wholePitch(exact: number, note: XmlElement, staff: Staff, state: MeiState): number {
  const pitch = Math.round(exact);
  if (pitch !== exact && !staff.toldMicrotone) {
    const message = `staff ${staff.number} has pitches between two keys`;
    state.found.warning('score-microtone', note, message, 'each is moved to the nearer key');
    staff.toldMicrotone = true;
  }
  return pitch;
}

/** What the key signature and the bar's accidentals do, in a score whose notes leave it to them. */
function byKey(note: XmlElement, { key, alters }: Staff, state: MeiState): number {
  const spelled = spelledOf(note);
  if (!state.isByKey || !spelled || isInflected(note)) return 0;
  return alters.get(`${spelled.step} ${spelled.octave}`) ?? keyAlter(key, spelled.step);
}

function frettedPitch(note: XmlElement, { courses }: Staff): number | undefined {
  const open = courses.get(note.attributes.get('tab.course') ?? '');
  const fret = numberIn(note, 'tab.fret');
  return open !== undefined && fret !== undefined ? open + fret : undefined;
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

/** "unacc" is played before the beat, "acc" on it (MEI 5, data.GRACE); grace.time is what it takes, in %. */
function graceOf(element: XmlElement, quarters: number, { grace }: Cursor): Grace {
  const kind = element.attributes.get('grace') ?? grace?.kind;
  const percent = /^(\d+(?:\.\d+)?)%?$/u.exec(element.attributes.get('grace.time') ?? '')?.[1];
  const share = percent === undefined ? null : Math.min(1, Number(percent) / 100);
  const isBefore = kind !== 'acc' || grace?.isBehind === true;
  return {
    hasSlash: isBefore,
    written: Math.round(quarters * ppq),
    stealPrevious: isBefore ? share : null,
    stealFollowing: isBefore ? null : share,
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
