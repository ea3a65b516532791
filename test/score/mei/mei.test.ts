import { describe, expect, it } from 'vitest';
import { codesOf, onsets, played, texts } from '../written.js';
import { measure, mei, note } from './written.js';

describe('MEI', () => {
  it('notes, chords, rests, dots, beams and tuplets have their places', () => {
    const layer = `<beam>${note('a', 'c', '8')}${note('b', 'd', '8', 'accid.ges="s"')}</beam><tuplet num="3" numbase="2">${note('c', 'e', '8')}${note('d', 'f', '8')}<rest dur="8"/></tuplet><chord dur="4" dots="1"><note pname="c" oct="5"/><note pname="e" oct="5"><accid accid="f"/></note></chord><space dur="8"/>`;
    expect(onsets(mei(measure(layer)))).toEqual([
      [0, 60],
      [0.5, 63],
      [1, 64],
      [1.333, 65],
      [2, 72],
      [2, 75],
    ]);
    expect(played(mei(measure(layer))).endTick).toBe(4 * played(mei(measure(layer))).ppq);
  });

  it('ties and slurs hold by attribute and by element', () => {
    const byAttribute = mei(measure(note('a', 'c', '2', 'tie="i"') + note('b', 'c', '2', 'tie="t"')));
    const byElement = mei(
      measure(note('a', 'c', '2') + note('b', 'c', '2'), '<tie startid="#a" endid="#b"/>'),
    );
    expect(onsets(byAttribute)).toEqual([[0, 60]]);
    expect(onsets(byElement)).toEqual([[0, 60]]);
    const slurred = mei(
      measure(note('a', 'c') + note('b', 'd') + note('c', 'e', '2'), '<slur startid="#a" endid="#c"/>'),
    );
    expect(texts(slurred)).toEqual(['0 [legato!]', '1 [legato!]']);
  });

  it('articulations and ornaments have their MusicXML names', () => {
    const layer = `${note('a', 'c', '4', 'artic="stacc acc"')}<note pname="d" oct="4" dur="4"><artic artic="dnbow"/></note>${note('c', 'e')}${note('d', 'f')}`;
    const behind = '<trill startid="#c"/><mordent tstamp="4" staff="1" form="upper"/>';
    expect(texts(mei(measure(layer, behind)))).toEqual([
      '0 [staccato!]',
      '0 [accent!]',
      '1 [down-bow!]',
      '2 [trill-mark!]',
      '3 [inverted-mordent!]',
    ]);
  });

  it('dynamics, hairpins, words, pedal and tempo stand at their time stamps', () => {
    const layer = note('a', 'c') + note('b', 'd') + note('c', 'e') + note('d', 'f');
    const behind =
      '<dynam tstamp="1" staff="1">p</dynam><hairpin tstamp="2" tstamp2="0m+4" staff="1" form="cres"/><dynam tstamp="4" staff="1">f</dynam>' +
      '<dir tstamp="3" staff="1">pizz.</dir><tempo tstamp="1" mm="60" mm.unit="2"/><pedal tstamp="2" staff="1" dir="down"/>';
    const text = mei(measure(layer, behind));
    expect(texts(text)).toEqual(['0 [p]', '1 [<]', '2 [pizz.]', '3 [f]']);
    expect(played(text).parts[0]?.notes.map(({ velocity }) => velocity)).toEqual([45, 45, 68, 90]);
    expect(played(text).tempi).toEqual([{ tick: 0, quartersPerMinute: 120 }]);
    expect(played(text).parts[0]?.controllers).toMatchObject([{ number: 64, value: 127 }]);
  });

  it('repeats, endings, grace notes, transposition and bars said again', () => {
    const bar = (pname: string, attributes = '') => measure(note(pname, pname, '1'), '', attributes);
    const text = mei(
      `${bar('c', 'left="rptstart"')}<ending n="1">${bar('d', 'right="rptend"')}</ending><ending n="2">${bar('e')}</ending>`,
    );
    expect(onsets(text).map(([, pitch]) => pitch)).toEqual([60, 62, 60, 64]);
    const grace = mei(
      measure(note('a', 'c', '2') + note('g', 'd', '8', 'grace="unacc"') + note('b', 'e', '2')),
    );
    expect(onsets(grace)).toEqual([
      [0, 60],
      [1.875, 62],
      [2, 64],
    ]);
    const horn =
      '<scoreDef meter.count="4" meter.unit="4"><staffGrp><staffDef n="1" trans.semi="-7"/></staffGrp></scoreDef>';
    expect(onsets(mei(measure(note('a', 'c', '1')) + measure('<mRpt/>'), horn))).toEqual([
      [0, 53],
      [4, 53],
    ]);
  });

  it('what is wrong is told with its place', () => {
    expect(codesOf(mei(measure(`${note('a', 'c', '1')}<note pname="c" oct="4"/>`)))).toEqual([
      'score-missing',
    ]);
    expect(codesOf(mei(measure('<note dur="4"/>')))).toEqual(['score-value']);
    expect(codesOf(mei(measure(note('a', 'c'), '<slur startid="#a" endid="#nobody"/>')))).toEqual([
      'score-unpaired',
    ]);
    expect(codesOf(mei(''))).toEqual(['score-missing']);
  });
});
