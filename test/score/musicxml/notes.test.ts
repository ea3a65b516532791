import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { playScore, scoreToMidi } from '../../../src/score/index.js';
import { codesOf, encode, note, notes, onsets, partwise, played } from '../written.js';

const part = (performance: ReturnType<typeof played>, index = 0) => {
  const one = performance.parts[index];
  if (!one) throw new Error('no such part');
  return one;
};
const lengths = (text: string) => {
  const { parts, ppq } = played(text);
  return parts[0]?.notes.map(({ tick, endTick }) => Number(((endTick - tick) / ppq).toFixed(3)));
};
const suite = (name: string) => new Uint8Array(readFileSync(new URL(`../files/${name}`, import.meta.url)));

describe('notes of MusicXML', () => {
  it('stand where their divisions say, chords, rests, backup and forward counted', () => {
    const chord = note('C4/8').replace('<pitch>', '<chord/><pitch>').replaceAll('<step>C', '<step>E');
    const text = partwise([
      `${notes('C4/8')}${chord}${notes('R/4 G4/4')}<backup><duration>16</duration></backup><forward><duration>2</duration></forward>${notes('C3/2')}`,
    ]);
    expect(onsets(text)).toEqual([
      [0, 60],
      [0, 64],
      [0.5, 48],
      [3, 67],
    ]);
  });

  it('keep their time where divisions change (the test suite, 03c: printed as four quarters and two halves)', () => {
    const { performance } = playScore(suite('03c-Rhythm-DivisionChange.xml'), '03c');
    const ticks = performance?.parts[0]?.notes.map(({ tick }) => tick / (performance.ppq / 2));
    expect(ticks).toEqual([0, 2, 4, 6, 8, 12]);
  });

  it('are the same from a timewise score', () => {
    const one = partwise([notes('C4/16'), notes('D4/16'), notes('E4/16')]);
    const bars = [...one.matchAll(/<measure number="(\d)">(.*?)<\/measure>/gsu)];
    const turned = bars.map(
      ([, number, inside]) => `<measure number="${number}"><part id="P1">${inside}</part></measure>`,
    );
    const timewise = one
      .replace(/<part id="P1">.*<\/part>/su, turned.join(''))
      .replaceAll('score-partwise', 'score-timewise');
    expect(scoreToMidi(encode(timewise), 'a')).toEqual(scoreToMidi(encode(one), 'a'));
    expect(scoreToMidi(encode(timewise), 'a').value).toBeDefined();
  });

  it('sound where a transposing instrument sounds (the test suite, 72b: all parts sound C4 or an octave of it)', () => {
    const { performance } = playScore(suite('72b-TransposingInstruments-Full.xml'), '72b');
    const pitches = performance?.parts.map(({ notes: all }) => (all[0]?.pitch ?? -1) % 12);
    expect(pitches).toHaveLength(11);
    expect(new Set(pitches)).toEqual(new Set([0]));
  });

  it('are doubled at the octave where the instrument is', () => {
    const transpose = '<attributes><transpose><chromatic>-2</chromatic><double/></transpose></attributes>';
    expect(onsets(partwise([`${transpose}${notes('D4/16')}`]))).toEqual([
      [0, 48],
      [0, 60],
    ]);
  });

  it('of percussion whose keys the score does not tell are on those of their places on the staff', () => {
    const hit =
      '<note><unpitched><display-step>E</display-step><display-octave>4</display-octave></unpitched><duration>8</duration></note>';
    const text = partwise([hit + hit]);
    expect(codesOf(text)).toEqual(['score-no-key']);
    expect(onsets(text)).toEqual([
      [0, 64],
      [2, 64],
    ]);
  });

  it('of percussion are on the keys of their instruments, counted from 1 in the file, on channel 10', () => {
    const list =
      '<score-part id="P1"><part-name>Drums</part-name><score-instrument id="S"><instrument-name>S</instrument-name></score-instrument>' +
      '<score-instrument id="B"><instrument-name>B</instrument-name></score-instrument>' +
      '<midi-instrument id="S"><midi-unpitched>39</midi-unpitched></midi-instrument><midi-instrument id="B"><midi-unpitched>37</midi-unpitched></midi-instrument></score-part>';
    const stroke = (id: string) =>
      `<note><unpitched><display-step>E</display-step><display-octave>4</display-octave></unpitched><duration>8</duration><instrument id="${id}"/></note>`;
    const performance = played(partwise([stroke('S') + stroke('B')], list));
    expect(part(performance).channel).toBe(9);
    expect(part(performance).notes.map(({ pitch }) => pitch)).toEqual([38, 36]);
  });

  it('tied are one, over bars and voices; slurred ones touch the next, dotted ones are short', () => {
    const tied = partwise([
      note('C4/16', '<tie type="start"/>'),
      `${note('C4/8', '<tie type="stop"/><tie type="start"/>')}${note('C4/8', '<tie type="stop"/>')}`,
    ]);
    expect(onsets(tied)).toEqual([[0, 60]]);
    expect(lengths(tied)?.[0]).toBeGreaterThan(7.8);
    const dot = '<notations><articulations><staccato/></articulations></notations>';
    const slur = (type: string) => `<notations><slur type="${type}"/></notations>`;
    const text = partwise([
      `${note('C4/4', slur('start'))}${note('D4/4', slur('stop'))}${note('E4/4', dot)}${note('F4/4')}`,
    ]);
    expect(lengths(text)).toEqual([1, 0.875, 0.45, 0.875]);
  });

  it('of grace take their time as the score says, else by their slash', () => {
    const grace = (attributes: string) =>
      `<note><grace ${attributes}/><pitch><step>D</step><octave>4</octave></pitch><type>eighth</type></note>`;
    const with_ = (attributes: string) =>
      onsets(partwise([`${notes('C4/8')}${grace(attributes)}${notes('E4/8')}`]));
    expect(with_('slash="yes"')).toEqual([
      [0, 60],
      [1.875, 62],
      [2, 64],
    ]);
    expect(with_('')).toEqual([
      [0, 60],
      [2, 62],
      [2.5, 64],
    ]);
    expect(with_('steal-time-previous="25"')[1]).toEqual([1.5, 62]);
    expect(with_('steal-time-following="25"')[2]).toEqual([2.5, 64]);
    expect(with_('make-time="1"')[2]).toEqual([2.25, 64]);
    expect(onsets(partwise([`${notes('C4/16')}${grace('slash="yes"')}`]))[1]).toEqual([3.875, 62]);
  });

  it('may say their own dynamics, attack and release, and in which passes they sound', () => {
    const performance = played(
      partwise([
        `${note('C4/4', '', 'dynamics="50"')}${note('D4/4', '', 'attack="1" release="-2"')}${note('E4/8', '', 'time-only="2"')}<barline><repeat direction="backward"/></barline>`,
      ]),
    );
    const { ppq } = performance;
    const all = part(performance).notes;
    expect(all[0]).toMatchObject({ pitch: 60, velocity: 45 });
    expect(all[1]).toMatchObject({ pitch: 62, tick: 1.25 * ppq, endTick: 1.5 * ppq });
    expect(all.map(({ pitch }) => pitch)).toEqual([60, 62, 60, 62, 64]);
  });

  it('that are cues or rests do not sound', () => {
    expect(
      onsets(partwise([`${note('C4/8').replace('<pitch>', '<cue/><pitch>')}${notes('R/4 D4/4')}`])),
    ).toEqual([[3, 62]]);
  });

  it('tell of what they lack, all at once', () => {
    const text = partwise([
      '<note><duration>4</duration></note><note><pitch><step>C</step></pitch><duration>4</duration></note><note><pitch><step>C</step><octave>4</octave></pitch></note>' +
        note('C4/x'),
      note('C9/16').replace('<octave>9', '<octave>99'),
    ]);
    expect(codesOf(text)).toEqual([
      'score-missing',
      'score-value',
      'score-missing',
      'score-value',
      'score-value',
    ]);
  });

  it('between two keys go to the nearer one, which is told once', () => {
    const quarter = notes('C4/4').replace('<octave>', '<alter>0.4</alter><octave>');
    expect(codesOf(partwise([quarter + quarter]))).toEqual(['score-microtone']);
    expect(onsets(partwise([quarter]))).toEqual([[0, 60]]);
  });
});
