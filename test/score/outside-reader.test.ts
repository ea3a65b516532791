import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { playScore } from '../../src/score/index.js';
import { makeOutsidePlayer, makeOutsideReader, marksOf, soundIn, soundOf } from './outside-reader.js';
import { direction, encode, note, notes, partwise, played } from './written.js';

const slur = (type: string) => `<slur type="${type}"/>`;
const mark = (group: string, name: string) => `<${group}><${name}/></${group}>`;
const noted = (word: string, ...inside: readonly string[]) =>
  note(word, `<type>quarter</type><notations>${inside.join('')}</notations>`);

/** Marks that both MusicXML and MEI know, dynamics, hairpins, words, chords, ties. */
const piece = partwise([
  direction('<dynamics><p/></dynamics>') +
    noted('C4/4', mark('articulations', 'staccato')) +
    noted('D4/4', mark('articulations', 'accent'), mark('technical', 'up-bow')) +
    noted('E4/4', slur('start')) +
    noted('F4/4', slur('stop'), mark('ornaments', 'trill-mark')),
  direction('<wedge type="crescendo"/>') +
    noted('G4/4', mark('articulations', 'tenuto')) +
    noted('A4/4', mark('technical', 'snap-pizzicato')) +
    direction('<wedge type="stop"/>') +
    direction('<dynamics><f/></dynamics>') +
    note('B4/4', '<type>quarter</type>') +
    note('C5/4', '<tie type="start"/><type>quarter</type><notations><tied type="start"/></notations>'),
  note('C5/4', '<tie type="stop"/><type>quarter</type><notations><tied type="stop"/></notations>') +
    direction('<words>pizz.</words>') +
    notes('D5/4 E5/4').replaceAll('</duration>', '</duration><type>quarter</type>') +
    note('F#5/4', '<type>quarter</type>'),
]);

describe('an outside reader', () => {
  let meiOf: (xml: string) => string | undefined;
  beforeAll(async () => {
    meiOf = await makeOutsideReader();
  });

  it('finds the same pitches, rhythm and marks in a score', () => {
    const mei = meiOf(piece) ?? '';
    const [mine, theirs] = [played(piece), played(mei)];
    expect(soundOf(theirs)).toEqual(soundOf(mine));
    expect(marksOf(theirs)).toEqual(marksOf(mine));
    expect(soundOf(mine)).toHaveLength(11);
  });

  it.each([
    '33c-Spanners-Slurs.xml',
    '45e-Repeats-Nested-Alternatives.xml',
    '41a-MultiParts-Partorder.xml',
    '32aa-Notations2_Ornaments.xml',
    '72b-TransposingInstruments-Full.xml',
    '24a-GraceNotes.xml',
  ])('finds the same pitches and rhythm in %s', (name) => {
    const xml = readFileSync(new URL(`files/${name}`, import.meta.url), 'utf8');
    const play = (text: string) => playScore(encode(text), name, { repeats: false }).performance;
    const [mine, theirs] = [play(xml), play(meiOf(xml) ?? '')];
    if (!mine || !theirs) throw new Error('not read');
    expect(soundOf(theirs)).toEqual(soundOf(mine));
  });

  it.each([
    '03c-Rhythm-DivisionChange.xml',
    '33c-Spanners-Slurs.xml',
    '41a-MultiParts-Partorder.xml',
    '72b-TransposingInstruments-Full.xml',
    '24a-GraceNotes.xml',
  ])('finds the same marks and the same order of bars in %s', (name) => {
    const xml = readFileSync(new URL(`files/${name}`, import.meta.url), 'utf8');
    const [mine, theirs] = [played(xml), played(meiOf(xml) ?? '')];
    expect(new Set(marksOf(theirs))).toEqual(new Set(marksOf(mine)));
    expect(theirs.bars.map(({ measure }) => measure)).toEqual(mine.bars.map(({ measure }) => measure));
  });

  it('strikes tremolos as they are struck here, in tuplets too, from MusicXML and from MEI', async () => {
    const name = '23e-Tuplets-Tremolo.xml';
    const xml = readFileSync(new URL(`files/${name}`, import.meta.url), 'utf8');
    const midi = (await makeOutsidePlayer())(xml);
    const theirs = soundIn(midi ?? new Uint8Array());
    expect(theirs).toHaveLength(45);
    for (const text of [xml, meiOf(xml) ?? '']) {
      const { performance } = playScore(encode(text), name, { ornaments: 'played' });
      expect(performance && soundOf(performance)).toEqual(theirs);
    }
  });
});
