// The sheet's music as MusicXML 4.0, for a copyist: articulations as notation.
import { measureText, type PartToWrite, tempoOf } from './measure.js';
import { lowestPitch } from './note.js';
import { phrasingOf } from './phrasing.js';
import type { NotePlaying } from './signs.js';
import {
  abbreviated,
  element,
  type ScoreToNotate,
  type WrittenScore,
  writtenScore,
  xmlText,
} from './written.js';

export { markElements } from './elements.js';
export { type NotePlaying, type NoteSigns, type PlayingState, signsOf } from './signs.js';

/** What a copyist is given besides the notes. */
export interface CopyistDetails {
  /** Any text; none where it is empty. */
  readonly title?: string;
  /** How notes are played, by their ids; what is absent is written without signs. */
  readonly playing?: ReadonlyMap<string, NotePlaying>;
  /** Dynamics ("mf"; any text), each by the id of the note at which it stands. */
  readonly dynamics?: ReadonlyMap<string, string>;
}

/** Something that could not be written as it sounds. */
export interface ScoreRemark {
  readonly code: 'note-too-low';
  /** The index of the part. */
  readonly part: number;
  /** The first of the notes. */
  readonly tick: number;
  readonly message: string;
  readonly hint: string;
}

/** A score for a copyist. */
export interface CopyistScore {
  /** MusicXML, UTF-8. */
  readonly bytes: Uint8Array;
  readonly diagnostics: readonly ScoreRemark[];
}

/** A tempo is written where it is so much faster or slower than the one before. Own choice. */
const newTempo = 0.1;

/**
 * Writes played parts as MusicXML 4.0 (score-partwise), with the values, voices and spelling that the sheet has, all
 * parts at sounding pitch. Articulations become marks at notes, words where the way of playing changes, and slurs over
 * joined notes. The same score gives the same text. Linear in notes and bars.
 */
export function writeMusicXml(
  score: ScoreToNotate,
  { title = '', playing = new Map(), dynamics = new Map() }: CopyistDetails = {},
): CopyistScore {
  const written = writtenScore(score, false);
  const tempos = temposOf(written);
  const parts = written.staves.map((staff, index): PartToWrite & { readonly sounds: readonly number[] } => {
    const isPercussion = staff.clef.shape === 'perc';
    const sounds = isPercussion ? soundsOf(score.staves[index]?.notes ?? []) : [];
    const instrument = (pitch: number) => soundId(index, pitch);
    return {
      staff,
      signs: phrasingOf(staff, playing),
      dynamics,
      isFirst: index === 0,
      tempos,
      sounds,
      ...(isPercussion ? { instrument } : {}),
    };
  });
  const list = parts.map(({ staff, sounds }, index) => partText(staff.label, index, sounds));
  const music = parts.map((part, index) => {
    const measures = written.measures.map((_, at) => measureText(written, at, part));
    return element('part', { id: `P${index + 1}` }, `\n${measures.join('\n')}\n`);
  });
  const name = xmlText(title).trim();
  const text = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<score-partwise version="4.0">',
    ...(name === '' ? [] : [element('work', {}, element('work-title', {}, name))]),
    '<identification><encoding><software>keyslip</software></encoding></identification>',
    '<defaults><concert-score/></defaults>',
    element('part-list', {}, list.join('\n')),
    ...music,
    '</score-partwise>\n',
  ].join('\n');
  return { bytes: new TextEncoder().encode(text), diagnostics: tooLow(score) };
}

function tooLow({ staves }: ScoreToNotate): readonly ScoreRemark[] {
  return staves.flatMap(({ label, notes, percussion }, part): ScoreRemark[] => {
    const low = percussion ? [] : notes.filter(({ pitch }) => pitch < lowestPitch);
    const [first] = low;
    if (!first) return [];
    const count = low.length === 1 ? '1 note' : `${low.length} notes`;
    const message = `"${label}" has ${count} below C0, which MusicXML does not have: written an octave higher`;
    const hint = 'see whether they are key switches, which are no music: give the part its map';
    return [{ code: 'note-too-low', part, tick: first.tick, message, hint }];
  });
}

function soundsOf(notes: ScoreToNotate['staves'][number]['notes']): readonly number[] {
  return [...new Set(notes.map(({ pitch }) => pitch))].sort((a, b) => a - b);
}

function soundId(part: number, pitch: number): string {
  return `P${part + 1}-I${pitch}`;
}

/** A part's head; percussion has a sound for each of its pitches (MusicXML counts them from 1). */
function partText(label: string, index: number, sounds: readonly number[]): string {
  const name = xmlText(label).trim();
  const short = abbreviated(label);
  const instruments = sounds.map((pitch) =>
    element('score-instrument', { id: soundId(index, pitch) }, element('instrument-name', {}, `${pitch}`)),
  );
  const midi = sounds.map((pitch) => {
    const unpitched = `<midi-channel>10</midi-channel><midi-unpitched>${pitch + 1}</midi-unpitched>`;
    return element('midi-instrument', { id: soundId(index, pitch) }, unpitched);
  });
  const content = [
    element('part-name', {}, name === '' ? `Part ${index + 1}` : name),
    short === '' || short === name ? '' : element('part-abbreviation', {}, xmlText(short)),
    ...instruments,
    ...midi,
  ];
  return element('score-part', { id: `P${index + 1}` }, content.join(''));
}

/** For each bar where the tempo is told, the tempo. */
function temposOf(score: WrittenScore): ReadonlyMap<number, number> {
  const told = new Map<number, number>();
  let last = 0;
  score.measures.forEach((measure, index) => {
    const tempo = tempoOf(score, measure);
    if (tempo <= 0 || Math.abs(tempo - last) <= newTempo * last) return;
    last = tempo;
    told.set(index, Math.max(1, Math.round(tempo)));
  });
  return told;
}
