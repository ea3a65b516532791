import { describe, expect, it } from 'vitest';
import { names } from '../../../src/score/index.js';
import { codesOf, direction, note, notes, partwise, played, texts } from '../written.js';

/** Counts of the three lists in MusicXML 4.0 (schema/musicxml.xsd, read); accidental-mark is the ornaments' 16th. */
const counts = { articulations: 17, technical: 31, ornaments: 15 };

/** Elements that are no mark of the note that they end at. */
const needs: Readonly<Record<string, string>> = {
  'hammer-on': 'type="start"',
  'pull-off': 'type="start"',
  'wavy-line': 'type="start"',
};

describe('marks of MusicXML', () => {
  it('have the names of its three lists', () => {
    for (const [list, count] of Object.entries(counts))
      expect(names[list as keyof typeof counts]).toHaveLength(count);
  });

  it.each(Object.keys(counts) as (keyof typeof counts)[])(
    'every element of %s is the mark of its note',
    (list) => {
      for (const name of names[list]) {
        const inside = `<notations><${list}><${name} ${needs[name] ?? ''}/></${list}></notations>`;
        const text = partwise([`${note('C4/4', inside)}${notes('D4/4')}`]);
        expect(codesOf(text)).toEqual([]);
        expect(texts(text)).toEqual([`0 [${name}!]`]);
      }
    },
  );

  it('accidental-mark is kept out of the music: it is no way of playing', () => {
    const inside =
      '<notations><ornaments><trill-mark/><accidental-mark>sharp</accidental-mark></ornaments></notations>';
    expect(texts(partwise([note('C4/4', inside)]))).toEqual(['0 [trill-mark!]']);
  });

  it('are those of all notes of an onset; slurred notes are legato up to the last', () => {
    const slur = (type: string) => `<notations><slur type="${type}" number="2"/></notations>`;
    const dot = '<notations><slur type="continue"/><articulations><staccato/></articulations></notations>';
    const text = partwise([
      `${note('C4/4', slur('start'))}${note('D4/4', dot)}${note('E4/4', slur('stop'))}${notes('F4/4')}`,
    ]);
    expect(texts(text)).toEqual(['0 [legato!]', '1 [legato!]', '1 [staccato!]']);
  });

  it('a dot under a line is detached-legato', () => {
    const both = '<notations><articulations><staccato/><tenuto/></articulations></notations>';
    expect(texts(partwise([note('C4/4', both)]))).toEqual(['0 [detached-legato!]']);
  });

  it('playing words hold from where they stand; the ordinary sound ends some of them', () => {
    const word = (text: string) => direction(`<words>${text}</words>`);
    const text = partwise([
      `${word('pizz.')}${notes('C4/4')}${word('arco, con sord.')}${notes('C4/4')}${word('sul ponticello')}${notes('C4/4')}${word('ord.')}${notes('C4/4')}`,
      `${word('senza sord.')}${notes('C4/16')}`,
    ]);
    expect(texts(text)).toEqual([
      '0 [pizz.]',
      '1 [arco]',
      '1 [con sord.]',
      '2 [sul pont.]',
      '3 [auto]',
      '3 [con sord.]',
      '4 [senza sord.]',
    ]);
  });

  it('the sound element speaks before its words', () => {
    const text = partwise([
      `${direction('<words>pizzicato</words>', '<sound pizzicato="yes"/>')}${notes('C4/8')}<sound pizzicato="no"/>${notes('C4/8')}`,
    ]);
    expect(texts(text)).toEqual(['0 [pizz.]', '2 [arco]']);
  });

  it('mutes of play are muted playing', () => {
    const mute = (name: string) => `<sound><play><mute>${name}</mute></play></sound>`;
    const text = partwise([
      `${mute('cup')}${notes('C4/4')}${mute('off')}${notes('C4/4')}${mute('stop-hand')}${notes('C4/8')}`,
    ]);
    expect(texts(text)).toEqual(['0 [con sord.]', '1 [senza sord.]', '2 [stopped]']);
  });

  it('where a repeat leads back, what holds is what holds there', () => {
    const text = partwise([
      notes('C4/16'),
      `${direction('<words>pizz.</words>')}${notes('C4/16')}<barline><repeat direction="backward"/></barline>`,
    ]);
    expect(texts(text)).toEqual(['4 [pizz.]', '8 [auto]', '12 [pizz.]']);
  });

  it('pedals and pan of sound are controllers', () => {
    const performance = played(
      partwise([
        `<sound damper-pedal="yes" pan="-90"/>${notes('C4/4')}${direction('<pedal type="change"/>')}${notes('C4/4')}<sound damper-pedal="50" soft-pedal="no"/>${notes('C4/8')}`,
      ]),
    );
    expect(performance.parts[0]?.controllers.map(({ number, value }) => [number, value])).toEqual([
      [64, 127],
      [10, 1],
      [64, 0],
      [64, 127],
      [64, 64],
      [67, 0],
    ]);
  });

  it('ends without beginnings are told', () => {
    const slur = '<notations><slur type="start"/></notations>';
    expect(codesOf(partwise([note('C4/4', slur)]))).toEqual(['score-unpaired']);
    expect(codesOf(partwise([note('C4/4', '<tie type="start"/>')]))).toEqual(['score-unpaired']);
  });
});
