import { numberIn } from '../xml/element.js';
import { putOrnament } from './ornaments.js';
import { endOf, isBefore, notesAt, type Spot, spotOf, stavesOf, within } from './places.js';
import type { DraftNote, MeiState, Reference } from './state.js';
import { referenceOf } from './values.js';

function endsOf({ element }: Reference, state: MeiState): readonly DraftNote[] {
  return state.byId.get(referenceOf(element.attributes.get('endid')) ?? '') ?? [];
}

/** Joins notes by a tie of its own. */
export function tie(reference: Reference, state: MeiState): void {
  if (!spotOf(reference, state)) return;
  for (const note of notesAt(reference, state)) note.tiedTo = true;
  for (const note of endsOf(reference, state)) note.tiedFrom = true;
}

/** Notes under a slur, up to its end, are joined to what follows them. */
export function slur(reference: Reference, state: MeiState): void {
  const [from, to] = [spotOf(reference, state), endOf(reference, state)];
  if (!from || !to) return;
  const starts = notesAt(reference, state);
  const voices = new Set([...starts, ...endsOf(reference, state)].map(({ voice }) => voice));
  for (const { notes } of stavesOf(reference, state))
    for (const note of within(notes, from.measure, to.measure))
      if (voices.has(note.voice) && isUnder(note, from, to)) note.isSlurred = true;
  for (const note of starts) if (note.grace) note.isSlurred = true;
}

/** Whether a line goes on from a note to the next. */
function isUnder(note: Spot, from: Spot, to: Spot): boolean {
  return !isBefore(note, from) && isBefore(note, to);
}

/** Notes under an octave line whose octave is only printed sound an octave or more away (MEI 5, octave: dis, dis.place). */
export function octave(reference: Reference, state: MeiState): void {
  const { element } = reference;
  const [from, to] = [spotOf(reference, state), endOf(reference, state)];
  if (!from || !to) return;
  const octaves = Math.round(((numberIn(element, 'dis') ?? 8) - 1) / 7);
  const shift = 12 * octaves * (element.attributes.get('dis.place') === 'below' ? -1 : 1);
  for (const { notes } of stavesOf(reference, state))
    for (const note of within(notes, from.measure, to.measure)) {
      const pitch = note.pitch + shift;
      if (isBefore(note, from) || isBefore(to, note) || state.performed.has(note)) continue;
      if (pitch >= 0 && pitch <= 127) note.pitch = pitch;
      state.performed.add(note);
    }
}

/** A glissando sounds the keys between its notes; a slide has none (as `type` says, else a line that is not wavy). */
export function gliss(reference: Reference, state: MeiState): void {
  const { attributes } = reference.element;
  const [from] = notesAt(reference, state);
  const [to] = endsOf(reference, state);
  if (!spotOf(reference, state) || !endOf(reference, state) || !from || !to) return;
  const type = attributes.get('type') ?? '';
  const isSlide = /slide|portamento/u.test(type) || (type === '' && attributes.get('lform') === 'solid');
  if (isSlide) from.isSlurred = true;
  else
    from.ornaments = [...from.ornaments, { kind: 'glissando', marks: [], distance: to.pitch - from.pitch }];
}

/** A trill's line goes over the notes that follow in its voice, up to its end. */
export function trillLine(reference: Reference, trilled: readonly DraftNote[], state: MeiState): void {
  const [note] = trilled;
  const { attributes } = reference.element;
  const to = attributes.has('endid') || attributes.has('tstamp2') ? endOf(reference, state) : undefined;
  const staff = note && state.staffOf.get(note);
  if (!note || !to || !staff) return;
  const reach = attributes.has('endid')
    ? (one: Spot) => !isBefore(to, one)
    : (one: Spot) => isBefore(one, to);
  note.ornaments = note.ornaments.map((one) => (one.kind === 'trill' ? { ...one, hasLine: true } : one));
  for (const one of within(staff.notes, note.measure, to.measure))
    if (one.voice === note.voice && isBefore(note, one) && reach(one) && !one.grace)
      putOrnament('trill-mark', one, state, { hasLine: true });
}
