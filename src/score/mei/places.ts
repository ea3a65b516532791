import { lastWithin } from '../../midi/index.js';
import { numberIn, type XmlElement } from '../xml/element.js';
import { type DraftNote, type MeiState, type Reference, type Staff, staffOf, ticks } from './state.js';
import { referenceOf } from './values.js';

/** A place of the score. Unit of the offset: ticks. */
export interface Spot {
  readonly measure: number;
  readonly offset: number;
}

/** The staves that an event is for; all where it does not say. */
export function stavesOf({ element }: Reference, state: MeiState): readonly Staff[] {
  const named = (element.attributes.get('staff') ?? '').split(/\s+/u).filter((one) => one !== '');
  if (named.length > 0) return named.map((one) => staffOf(state, one));
  const owner = state.byId.get(referenceOf(element.attributes.get('startid')) ?? '')?.[0];
  const staff = owner && state.staffOf.get(owner);
  return staff ? [staff] : [...state.staves.values()];
}

/** Where an event begins. undefined where it refers to what is not there, which is reported. */
export function spotOf({ element, measure }: Reference, state: MeiState): Spot | undefined {
  const start = element.attributes.get('startid');
  if (start !== undefined) return placeOf(element, start, state);
  const stamp = numberIn(element, 'tstamp');
  return { measure, offset: stampTicks(stamp ?? 1, measure, state) };
}

/** Where an event ends; undefined where it does not say. */
export function endOf({ element, measure }: Reference, state: MeiState): Spot | undefined {
  const end = element.attributes.get('endid');
  if (end !== undefined) return placeOf(element, end, state);
  const stamp = /^(?:(\d+)m\s*\+\s*)?(\d+(?:\.\d+)?)$/u.exec(element.attributes.get('tstamp2')?.trim() ?? '');
  if (!stamp) return undefined;
  const there = measure + Number(stamp[1] ?? 0);
  return { measure: there, offset: stampTicks(Number(stamp[2]), there, state) };
}

/** The place of a note, a chord or a rest. */
function placeOf(element: XmlElement, reference: string, state: MeiState): Spot | undefined {
  const id = referenceOf(reference) ?? '';
  const place = state.byId.get(id)?.[0] ?? state.places.get(id);
  if (!place) lost(element, reference, state);
  return place;
}

/** A time stamp counts beats of the metre, from 1. */
function stampTicks(stamp: number, measure: number, state: MeiState): number {
  return Math.max(0, ticks(((stamp - 1) * 4) / (state.measures[measure]?.metre?.beatType ?? 4)));
}

export function lost(element: XmlElement, id: string, state: MeiState): void {
  state.found.warning(
    'score-unpaired',
    element,
    `${element.name} refers to ${id.slice(0, 40)}, which is no note`,
    'an xml:id of the score',
  );
}

/** Notes that begin at an event's place: those that it names, else those of its staves. */
export function notesAt(reference: Reference, state: MeiState): readonly DraftNote[] {
  const { element } = reference;
  const listed = (element.attributes.get('plist') ?? '').split(/\s+/u).filter((one) => one !== '');
  if (listed.length > 0)
    return listed.flatMap((one) => {
      const notes = state.byId.get(referenceOf(one) ?? '');
      if (!notes && !state.places.has(referenceOf(one) ?? '')) lost(element, one, state);
      return notes ?? [];
    });
  const start = referenceOf(element.attributes.get('startid'));
  if (start !== undefined) return state.byId.get(start) ?? [];
  const spot = spotOf(reference, state);
  return stavesOf(reference, state).flatMap(({ notes }) =>
    within(notes, spot?.measure ?? -1, spot?.measure ?? -1).filter(({ offset }) => offset === spot?.offset),
  );
}

/** Notes of some bars: they stand by bar, and are found without looking at all. */
export function within(notes: readonly DraftNote[], first: number, last: number): readonly DraftNote[] {
  const upTo = (measure: number) =>
    1 + lastWithin(notes.length, (index) => notes[index]?.measure ?? 0, measure);
  return notes.slice(upTo(first - 1), upTo(last));
}

export function isBefore(a: Spot, b: Spot): boolean {
  return a.measure < b.measure || (a.measure === b.measure && a.offset < b.offset);
}
