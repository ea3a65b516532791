import {
  type ChangedNote,
  type ChangeGroup,
  type Compared,
  type ComparedArticulations,
  type ComparedExample,
  type ComparedPart,
  groupChanges,
  type SentAs,
} from '../compare/index.js';
import { escapeText, formatPlace, plural, spellPitch } from '../diagnostics/index.js';
import { type ArticulationMap, formatMessage, type SwitchMessage } from '../map/index.js';
import { becomesText, differencesText, formatLikeness } from './libraries-text.js';

type MiddleC = ArticulationMap['middleC'];

/** The changes in a part, by bars; '' where nothing changes. */
export function changedPartText({ file, part, ...compared }: ComparedPart, middleC: MiddleC): string {
  const track = `track ${part.track}${part.trackName === '' ? '' : ` "${escapeText(part.trackName)}"`}`;
  const name = file === '-' ? 'standard input' : escapeText(file);
  return changedText(`${name}, ${track}, channel ${part.channel + 1}`, compared, placesInBars(middleC));
}

/** Places as bars and beats; as ticks where the music has none. */
function placesInBars(middleC: MiddleC): Places {
  return {
    formatPosition: (note) => note.bar ?? note.number,
    range: (first, last) =>
      first.bar === null ? span('tick', first.tick, last.tick) : span('bar', first.bar, last.bar),
    note: ({ bar, beat, tick, pitch }) =>
      `${spellPitch(pitch, middleC)} at ${bar === null ? `tick ${tick}` : `${bar}.${beat}`}`,
  };
}

/** Changes of decisions in music with bars, those of one kind in one line with both reasons. */
export function changesText(changed: readonly ChangedNote[], middleC: MiddleC): readonly string[] {
  const places = placesInBars(middleC);
  return groupChanges(changed, places.formatPosition).flatMap((group) => groupText(group, places));
}

/** The changes in an example, by its notes; '' where nothing changes. */
export function changedExampleText(
  { place, number, ...compared }: ComparedExample,
  middleC: MiddleC,
): string {
  return changedText(`${formatPlace(place)}, example ${number}`, compared, {
    formatPosition: (note) => note.number,
    range: (first, last) => span('note', first.number, last.number),
    note: ({ pitch }) => spellPitch(pitch, middleC),
  });
}

/** How places in a kind of music are told. */
interface Places {
  readonly formatPosition: (note: ChangedNote) => number;
  readonly range: (first: ChangedNote, last: ChangedNote) => string;
  readonly note: (note: ChangedNote) => string;
}

function changedText(heading: string, { notes, changed }: Compared, places: Places): string {
  if (changed.length === 0) return '';
  return [
    `${heading}: ${ofNotes(changed.length, notes)}`,
    ...groupChanges(changed, places.formatPosition).flatMap((group) => groupText(group, places)),
  ].join('\n');
}

function groupText({ first, last, notes }: ChangeGroup, places: Places): readonly string[] {
  const where = places.range(first, last);
  const near = first.likeness === undefined ? '' : ` (${formatLikeness(first.likeness)})`;
  const change = `${first.from.articulation} → ${first.to.articulation}${near}`;
  const count = notes === 1 ? '' : `${notes} notes, the first `;
  return [
    `  ${where}: ${change}, ${count}${places.note(first)}`,
    `      ${first.from.reason}`,
    `    → ${first.to.reason}`,
  ];
}

/** All that was compared, in a line: `6 of 38 notes change articulation`. */
export function ofNotes(changed: number, notes: number): string {
  if (changed > 0)
    return `${changed} of ${plural(notes, 'note')} ${changed === 1 ? 'changes' : 'change'} articulation`;
  return `no articulation changes in ${plural(notes, 'note')} compared`;
}

/** What differs between the articulations themselves, and the libraries; '' where nothing does. */
export function articulationsText(
  compared: ComparedArticulations,
  a: ArticulationMap,
  b: ArticulationMap,
): string {
  const { onlyA, onlyB, becomes, reswitched, transpose, pedal } = compared;
  const only = (heading: string, names: readonly string[]) =>
    names.length === 0 ? [] : [`${heading}: ${names.join(', ')}`];
  const libraries = [a, b].map(({ library, instrument }) => escapeText(`${library}, ${instrument}`));
  const switches = reswitched.map(
    ({ articulation, from, to, sent }) =>
      `  ${articulation}: ${switchText(from, sent?.from, a.middleC)} → ${switchText(to, sent?.to, b.middleC)}`,
  );
  return [
    ...(becomes
      ? [
          `By what they mean, ${libraries.join(' → ')}:`,
          ...becomesText(becomes, a),
          ...only(`Stands for nothing of ${escapeText(a.file)}`, onlyB),
        ]
      : [...only(`Only in ${escapeText(a.file)}`, onlyA), ...only(`Only in ${escapeText(b.file)}`, onlyB)]),
    ...(switches.length > 0 ? ['Switched differently (not counted as a change):', ...switches] : []),
    ...(transpose ? [`Sent over what is written: ${transpose.from} → ${transpose.to} semitones`] : []),
    ...(pedal ? [`The sustain pedal: ${pedal.from} → ${pedal.to}`] : []),
    ...differencesText(compared, a, b),
  ].join('\n');
}

function switchText(
  messages: readonly SwitchMessage[],
  { key, velocity }: SentAs = {},
  middleC: MiddleC,
): string {
  const said = [
    ...messages.map((message) => formatMessage(message, middleC)),
    ...(key === undefined ? [] : [`notes on ${spellPitch(key, middleC)} (${key})`]),
    ...(velocity ? [`velocities ${velocity.into.join(' to ')}`] : []),
  ];
  return said.join(', ') || 'nothing';
}

/** `bar 3`, `bars 3–4`. */
function span(word: string, from: number, to: number | null): string {
  return from === to || to === null ? `${word} ${from}` : `${word}s ${from}–${to}`;
}
