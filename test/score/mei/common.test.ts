// Elements of common Western notation (MEI 5, modules cmn, cmnOrnaments, shared, edittrans).
import { describe, expect, it } from 'vitest';
import { playScore } from '../../../src/score/index.js';
import { some } from '../../support/draws.js';
import { codesOf, encode, onsets, played, texts } from '../written.js';
import { measure, mei, note } from './written.js';

const four = note('a', 'c') + note('b', 'd') + note('c', 'e') + note('d', 'f');
const pitches = (text: string) => onsets(text).map(([, pitch]) => pitch);
const whole = (pname: string, more = '') => `<note pname="${pname}" oct="4" dur="1" ${more}/>`;
const definition = (staves: string, more = 'meter.count="4" meter.unit="4"') =>
  `<scoreDef ${more}><staffGrp>${staves}</staffGrp></scoreDef>`;
const bars = (...layers: readonly string[]) => layers.map((layer) => measure(layer)).join('');
const playedOut = (text: string) =>
  playScore(encode(text), 'x', { ornaments: 'played' }).performance?.parts[0]?.notes.map(
    ({ pitch }) => pitch,
  );

describe('lengths in MEI', () => {
  it('tuplets are containers, spans and attributes', () => {
    const three = (more = ['', '', '']) =>
      ['c', 'd', 'e'].map((pname, index) => note(pname, pname, '8', more[index])).join('');
    const rest = '<rest dur="2"/><rest dur="4"/>';
    const expected = [
      [0, 60],
      [0.333, 62],
      [0.667, 64],
    ];
    expect(onsets(mei(measure(`<tuplet num="3" numbase="2">${three()}</tuplet>${rest}`)))).toEqual(expected);
    const span = '<tupletSpan startid="#c" endid="#e" num="3" numbase="2"/>';
    expect(onsets(mei(measure(three() + rest, span)))).toEqual(expected);
    const both = measure(`<tuplet num="3" numbase="2">${three()}</tuplet>${rest}`, span);
    expect(onsets(mei(both))).toEqual(expected);
    const attributes = ['tuplet="i1"', 'tuplet="m1"', 'tuplet="t1"'];
    expect(onsets(mei(measure(three(attributes) + rest)))).toEqual(expected);
    expect(codesOf(mei(measure(three() + rest, '<tupletSpan tstamp="1" tstamp2="2"/>')))).toEqual([
      'score-value',
    ]);
  });

  it('what sounds comes before what is printed; ticks serve where nothing is printed', () => {
    const at = (more: string) =>
      onsets(
        mei(
          measure(`<note pname="c" oct="4" ${more}/>${note('b', 'd', '2')}`),
          definition('<staffDef n="1" ppq="4"/>'),
        ),
      )[1]?.[0];
    expect(at('dur="2" dur.ges="4"')).toBe(1);
    expect(at('dur="4" dur.ppq="99"')).toBe(1);
    expect(at('dur.ppq="6"')).toBe(1.5);
  });

  it('an event without a length fills its bar, which is told; two of them are refused', () => {
    const gap = mei(measure(`<space/>${note('b', 'd', '2')}`));
    expect(onsets(gap)).toEqual([[2, 62]]);
    expect(codesOf(gap)).toEqual(['score-inferred']);
    expect(
      codesOf(mei(measure(`<note pname="c" oct="4"/>${note('b', 'd')}<note pname="c" oct="4"/>`))),
    ).toContain('score-missing');
  });

  it('a chord may leave its length to its notes', () => {
    const chord = '<chord><note pname="c" oct="4" dur="2"/><note pname="e" oct="4" dur="2"/></chord>';
    expect(onsets(mei(measure(chord + note('b', 'd', '2'))))).toEqual([
      [0, 60],
      [0, 64],
      [2, 62],
    ]);
  });
});

describe('bars in MEI', () => {
  it('rests that fill a bar fill the upbeat too; a bar over several is several bars', () => {
    const two = definition('<staffDef n="1"/><staffDef n="2"/>');
    const bar = (first: string, second: string, attributes = '') =>
      `<measure ${attributes}><staff n="1"><layer>${first}</layer></staff><staff n="2"><layer>${second}</layer></staff></measure>`;
    const upbeat = mei(bar(note('a', 'c'), '<mRest/>', 'metcon="false"') + bar(whole('d'), whole('d')), two);
    expect(played(upbeat).bars.map(({ tick }) => tick / 10080)).toEqual([0, 1]);
    const short = mei(bar(note('a', 'c'), '<mRest/>') + bar(whole('d'), whole('d')), two);
    expect(played(short).bars.map(({ tick }) => tick / 10080)).toEqual([0, 4]);
    expect(played(mei(bars('<multiRest num="3"/>', whole('d')))).bars).toHaveLength(4);
  });

  it('bars, half bars and beats are said again', () => {
    expect(onsets(mei(bars(whole('c'), '<mRpt/>')))).toEqual([
      [0, 60],
      [4, 60],
    ]);
    expect(pitches(mei(bars(whole('c'), whole('d'), '<mRpt2/>', '<mRpt2/>')))).toEqual([60, 62, 60, 62]);
    expect(pitches(mei(bars(whole('c'), whole('d'), '<multiRpt num="2"/>')))).toEqual([60, 62, 60]);
    const half = note('a', 'c') + note('b', 'd');
    expect(onsets(mei(measure(`${half}<halfmRpt/>`)))).toEqual([
      [0, 60],
      [1, 62],
      [2, 60],
      [3, 62],
    ]);
    const beat = `<beam>${note('a', 'c', '8')}${note('b', 'd', '8')}</beam><beatRpt/><beatRpt/><beatRpt/>`;
    expect(pitches(mei(measure(beat)))).toEqual([60, 62, 60, 62, 60, 62, 60, 62]);
  });

  it('endings, jumps and repeat signs are played; an expansion goes before them', () => {
    const bar = (pname: string, attributes = '', behind = '') => measure(whole(pname), behind, attributes);
    const endings = (first: string) =>
      `${bar('c', 'left="rptstart"')}<ending n="${first}">${bar('d', 'right="rptend"')}</ending><ending n="3">${bar('e')}</ending>`;
    expect(pitches(mei(endings('1-2')))).toEqual([60, 62, 60, 62, 60, 64]);
    const dacapo = `${bar('c', '', '<dir tstamp="4" staff="1">Fine</dir>')}${bar('d', '', '<repeatMark func="daCapo" tstamp="4"/>')}`;
    expect(pitches(mei(dacapo))).toEqual([60, 62, 60]);
    const section = (id: string, pname: string) => `<section xml:id="${id}">${bar(pname)}</section>`;
    const expanded = `<expansion plist="#B #A #A"/>${section('A', 'c')}${section('B', 'd')}`;
    expect(pitches(mei(expanded))).toEqual([62, 60, 60]);
    // one that leads nowhere, or into itself, is none
    expect(pitches(mei(`<expansion plist="#B #C"/>${section('A', 'c')}${section('B', 'd')}`))).toEqual([
      60, 62,
    ]);
    expect(codesOf(mei(`<expansion plist="#B #C"/>${section('B', 'd')}`))).toEqual(['score-jump']);
    const endless = `<section xml:id="A"><expansion plist="#A"/>${bar('c')}</section>`;
    expect(pitches(mei(endless))).toEqual([60]);
  });

  it('metre, key and transposition change between bars and in them', () => {
    const change = `${measure('<mRest/>')}<scoreDef><meterSig count="3" unit="8"/></scoreDef>${measure('<mRest/>')}`;
    expect(played(mei(change)).bars.map(({ length }) => length / 10080)).toEqual([4, 1.5]);
    const mixed =
      '<scoreDef><meterSigGrp func="mixed"><meterSig count="2" unit="4"/><meterSig count="3" unit="8"/></meterSigGrp><staffGrp><staffDef n="1"/></staffGrp></scoreDef>';
    expect(played(mei(measure('<mRest/>'), mixed)).bars[0]?.metre).toEqual({ beats: 7, beatType: 8 });
    const horn = `${measure(whole('c'))}<staffDef n="1" trans.semi="-7"/>${measure(whole('c'))}`;
    expect(pitches(mei(horn))).toEqual([60, 53]);
    expect(pitches(mei(measure(whole('c')), definition('<staffDef n="1" trans.diat="-1"/>')))).toEqual([58]);
    expect(
      codesOf(mei(measure(whole('c')), definition('<staffDef n="1"/>', 'meter.count="x" meter.unit="4"'))),
    ).toEqual(['score-value']);
  });
});

describe('pitches in MEI', () => {
  it('without a word on how notes sound, key and accidentals hold as in print, which is told', () => {
    const flats = definition('<staffDef n="1" keysig="2f"/>');
    const layer = `${note('a', 'b')}<note pname="b" oct="4" dur="4" accid="n"/>${note('c', 'b')}<note pname="e" oct="4" dur="4"/>`;
    const text = mei(bars(layer, whole('b')), flats);
    expect(pitches(text)).toEqual([70, 71, 71, 63, 70]);
    expect(codesOf(text)).toEqual(['score-inferred']);
    const told = mei(measure(`<note pname="b" oct="4" dur="2" accid.ges="f"/>${note('c', 'b', '2')}`), flats);
    expect([pitches(told), codesOf(told)]).toEqual([[70, 71], []]);
  });

  it('octave lines move what is only printed there', () => {
    const line = '<octave startid="#b" endid="#c" dis="8" dis.place="above"/>';
    expect(pitches(mei(measure(four, line)))).toEqual([60, 74, 76, 65]);
    const sounding = four.replace('pname="e"', 'pname="e" oct.ges="5"');
    expect(pitches(mei(measure(sounding, line)))).toEqual([60, 74, 76, 65]);
    const below = '<octave tstamp="4" tstamp2="0m+4" staff="1" dis="15" dis.place="below"/>';
    expect(pitches(mei(measure(four, below)))).toEqual([60, 62, 64, 41]);
  });

  it('quarter tones are moved to the nearer key, which is told', () => {
    const text = mei(
      measure(`<note pname="c" oct="4" dur="2" accid="1qs"/>${note('b', 'd', '2', 'accid.ges="fd"')}`),
    );
    expect([pitches(text), codesOf(text)]).toEqual([[61, 61], ['score-microtone']]);
  });

  it('a MIDI number is the sound; a tablature has strings and frets', () => {
    const numbered = '<note pnum="50" dur="1"/>';
    expect(pitches(mei(measure(numbered), definition('<staffDef n="1" trans.semi="-12"/>')))).toEqual([50]);
    const guitar = definition(
      '<staffDef n="1"><tuning><course n="1" pname="e" oct="4"/><course n="2" pname="b" oct="3"/></tuning></staffDef>',
    );
    const grip =
      '<tabGrp dur="1"><note tab.course="1" tab.fret="3"/><note tab.course="2" tab.fret="0"/></tabGrp>';
    expect(pitches(mei(measure(grip), guitar))).toEqual([59, 67]);
  });
});

describe('staves in MEI', () => {
  const bar =
    '<measure><staff n="1"><layer><note pname="c" oct="5" dur="1"/></layer></staff><staff n="2"><layer><note pname="c" oct="3" dur="1"/></layer></staff></measure>';

  it('a group with a name whose staves have none is one part', () => {
    const piano =
      '<scoreDef><staffGrp><staffGrp symbol="brace"><label>Piano</label><instrDef midi.channel="3o"/><staffDef n="1"/><staffDef n="2"/></staffGrp></staffGrp></scoreDef>';
    const { parts } = played(mei(bar, piano));
    expect(parts.map(({ name, channel, notes }) => [name, channel, notes.length])).toEqual([['Piano', 2, 2]]);
    const two =
      '<scoreDef><staffGrp><label>Strings</label><staffDef n="1" label="Violin"/><staffDef n="2" label="Cello"/></staffGrp></scoreDef>';
    expect(played(mei(bar, two)).parts.map(({ name }) => name)).toEqual(['Violin', 'Cello']);
  });
});

describe('marks in MEI', () => {
  it('ornaments stand at notes, as elements and as letters (data.ORNAM.cmn, read)', () => {
    const said = (sign: string, attributes = '') =>
      texts(mei(measure(note('a', 'c', '1', attributes), sign))).map((one) => one.slice(2));
    expect(said('<ornam startid="#a">haydn</ornam>')).toEqual(['[haydn!]']);
    expect(said('<ornam startid="#a"/>')).toEqual(['[other-ornament!]']);
    expect(said('<turn startid="#a" form="lower" delayed="true"/>')).toEqual(['[delayed-inverted-turn!]']);
    expect(['m', 'M', 'S', 's', 'T', 'k', 'N'].map((letter) => said('', `ornam="${letter}"`)[0])).toEqual([
      ...['[mordent!]', '[inverted-mordent!]', '[turn!]', '[inverted-turn!]', '[trill-mark!]'],
      ...['[delayed-turn!]', '[other-ornament!]'],
    ]);
  });

  it('ornaments are played out with their accidentals, lines and strokes', () => {
    const out = (sign: string, layer = note('a', 'd', '1')) => playedOut(mei(measure(layer, sign)));
    expect(out('<turn startid="#a" accidupper="f" accidlower="s"/>')).toEqual([63, 62, 61, 62]);
    expect(out('<mordent startid="#a" form="lower" long="true"/>')).toEqual([62, 60, 62, 60, 62]);
    expect(out('', note('a', 'd', '1', 'ornam="T"'))?.slice(0, 2)).toEqual([62, 64]);
    const line = out('<trill startid="#a" tstamp2="0m+2.5"/>', four);
    expect(line?.slice(-2)).toEqual([64, 65]);
    expect(new Set(line?.slice(0, 10))).toEqual(new Set([60, 62, 64]));
    expect(out('', '<bTrem unitdur="8"><note pname="d" oct="4" dur="2"/></bTrem>')).toHaveLength(4);
    expect(out('', '<note pname="d" oct="4" dur="4" stem.mod="2slash"/>')).toHaveLength(4);
    const two = '<fTrem beams="1"><note pname="d" oct="4" dur="2"/><note pname="f" oct="4" dur="2"/></fTrem>';
    expect(out('', two)).toEqual([62, 65, 62, 65]);
    expect(out('<gliss startid="#a" endid="#d"/>', note('a', 'c', '2') + note('d', 'f', '2'))).toEqual([
      60, 61, 62, 63, 64, 65,
    ]);
  });

  it('chords are rolled, but where their bracket says no', () => {
    const chord = '<chord xml:id="x" dur="1"><note pname="c" oct="4"/><note pname="e" oct="4"/></chord>';
    const ticks = (sign: string) =>
      playScore(encode(mei(measure(chord, sign))), 'x', {
        ornaments: 'played',
      }).performance?.parts[0]?.notes.map(({ pitch }) => pitch);
    expect(ticks('<arpeg startid="#x"/>')).toEqual([60, 64]);
    expect(ticks('<arpeg plist="#x" order="down"/>')).toEqual([64, 60]);
    expect(ticks('<arpeg plist="#x" order="nonarp"/>')).toEqual([60, 64]);
  });

  it('breaths, slides, pedals, loudness by number', () => {
    expect(texts(mei(measure(four, '<breath tstamp="2.9" staff="1"/>')))).toEqual(['1 [breath-mark!]']);
    expect(texts(mei(measure(four, '<gliss startid="#a" endid="#b" type="slide"/>')))).toEqual([
      '0 [legato!]',
    ]);
    const pedal = played(mei(measure(four, '<pedal tstamp="1" staff="1" dir="down" func="soft"/>')));
    expect(pedal.parts[0]?.controllers).toMatchObject([{ number: 67, value: 127 }]);
    const loud = played(mei(measure(four, '<dynam tstamp="1" staff="1" val="100">loud</dynam>')));
    expect(loud.parts[0]?.notes[0]?.velocity).toBe(100);
    expect(played(mei(measure(note('a', 'c', '1', 'vel="33"')))).parts[0]?.notes[0]?.velocity).toBe(33);
    const tempo = '<tempo tstamp="1" staff="1" midi.mspb="1000000"/>';
    expect(played(mei(measure(four, tempo))).tempi).toEqual([{ tick: 0, quartersPerMinute: 60 }]);
  });
});

describe('what an edition decides, and what is not read', () => {
  it('of several readings the edited one is played', () => {
    const layer = `<app><lem>${note('a', 'c', '2')}</lem><rdg>${note('b', 'd', '2')}</rdg></app><choice><sic>${note('c', 'e', '4')}</sic><corr>${note('d', 'f', '4')}</corr></choice><supplied>${note('e', 'g', '4')}</supplied><del>${note('f', 'a', '4')}</del>`;
    expect(pitches(mei(measure(layer)))).toEqual([60, 65, 67]);
  });

  it('other elements are told once, with their number; what they hold is read', () => {
    const text = mei(
      measure(`<strange>${note('a', 'c', '1')}</strange>`) + measure(`<strange/>${whole('d')}`),
    );
    expect(pitches(text)).toEqual([60, 62]);
    const { diagnostics } = playScore(encode(text), 'x');
    expect(diagnostics.map(({ code, message }) => [code, message])).toEqual([
      ['score-passed-over', '<strange> is not read, here and at 1 other places'],
    ]);
    expect(codesOf(mei(measure(four, '<fing startid="#a">1</fing><fermata startid="#d"/>')))).toEqual([]);
    expect(codesOf(mei(measure(four, '<wonder tstamp="1"/>')))).toEqual(['score-passed-over']);
  });

  it('what would grow without end is refused, and soon', () => {
    const bar = `${'<note pname="c" oct="4" dur="64"/>'.repeat(1100)}`;
    for (const music of some([
      measure('<multiRest num="9999"/>').repeat(11),
      measure(bar) + measure('<mRpt/>').repeat(1000),
    ]))
      expect(codesOf(mei(music))).toContain('score-too-large');
    const nested = Array.from(
      { length: 60 },
      (_, index) =>
        `<section xml:id="s${index}"><expansion plist="#s${index + 1} #s${index + 1}"/></section>`,
    ).join('');
    const text = mei(`<expansion plist="#s0"/>${nested}<section xml:id="s60"/>${measure(whole('c'))}`);
    expect(pitches(text)).toEqual([60]);
  });
});
