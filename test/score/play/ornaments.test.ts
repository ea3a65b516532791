import { describe, expect, it } from 'vitest';
import { playScore } from '../../../src/score/index.js';
import { direction, encode, note, partwise } from '../written.js';

const written = (name: string, length: number, inside: string) =>
  note(`${name}/${length}`, `<type>quarter</type><notations>${inside}</notations>`);
const ornament = (name: string, length: number, inside: string) =>
  written(name, length, `<ornaments>${inside}</ornaments>`);

/** The notes of a score with its ornaments as notes: onset in quarters, MIDI note. */
function playedOut(text: string): readonly (readonly [number, number])[] {
  const { performance } = playScore(encode(text), 'test.musicxml', { ornaments: 'played' });
  if (!performance) throw new Error('not read');
  const { parts, ppq } = performance;
  return (parts[0]?.notes ?? []).map(({ tick, pitch }) => [Number((tick / ppq).toFixed(2)), pitch] as const);
}

const pitches = (text: string) => playedOut(text).map(([, pitch]) => pitch);
const key = (fifths: number) => `<attributes><key><fifths>${fifths}</fifths></key></attributes>`;
/** A quarter is a second: twelve notes of a trill. */
const slow = direction('<metronome><beat-unit>quarter</beat-unit><per-minute>60</per-minute></metronome>');

describe('ornaments as notes', () => {
  // MusicXML 4.0, trill-sound: start-note "upper", trill-step as marked; twelve notes a second are common practice
  it('a trill begins with the note above and ends with its own, as key and accidentals have them', () => {
    const trill = (before: string, inside = '<trill-mark/>') =>
      pitches(partwise([before + slow + ornament('D5', 4, inside)])).slice(0, 3);
    expect(pitches(partwise([slow + ornament('D5', 4, '<trill-mark/>')]))).toEqual(
      Array.from({ length: 6 }, () => [76, 74])
        .flat()
        .slice(0, 10),
    );
    expect(trill('')).toEqual([76, 74, 76]);
    expect(trill(key(-3))).toEqual([75, 74, 75]);
    expect(trill('', '<trill-mark/><accidental-mark>flat</accidental-mark>')).toEqual([75, 74, 75]);
    expect(trill(key(-3), '<trill-mark trill-step="whole"/>')).toEqual([76, 74, 76]);
    // an accidental in the bar before it
    expect(
      trill(
        `${key(-3)}<note><pitch><step>E</step><octave>5</octave></pitch><duration>0</duration></note>`,
      ).slice(-2),
    ).toEqual([76, 74]);
  });

  // the attributes' own definitions, and their defaults: MusicXML 4.0, trill-sound (schema, read)
  it('a trill does what its attributes say', () => {
    const trill = (attributes: string) =>
      playedOut(
        partwise([
          slow + written('D5', 16, `<ornaments><trill-mark ${attributes}/></ornaments><articulations/>`),
        ]),
      );
    expect(trill('beats="4"').map(([, pitch]) => pitch)).toEqual([76, 74, 76, 74]);
    expect(trill('beats="5" start-note="main" trill-step="half"').map(([, pitch]) => pitch)).toEqual([
      74, 75, 74, 75, 74,
    ]);
    expect(trill('beats="4" start-note="below"').map(([, pitch]) => pitch)).toEqual([72, 74, 76, 74]);
    expect(trill('beats="4" two-note-turn="half"').map(([, pitch]) => pitch)).toEqual([
      76, 74, 76, 74, 73, 74,
    ]);
    const [, second, third, fourth] = trill('beats="4" second-beat="50" last-beat="75"').map(([at]) => at);
    expect(second).toBeCloseTo(3.875 / 2, 1);
    expect(third).toBeCloseTo((5 / 8) * 3.875, 1);
    expect(fourth).toBeCloseTo(0.75 * 3.875, 1);
    const places = trill('beats="6" accelerate="yes"').map(([at]) => at);
    const gaps = places.slice(1).map((at, index) => at - (places[index] ?? 0));
    expect(gaps).toEqual([...gaps].sort((a, b) => b - a));
    expect(gaps[0]).toBeGreaterThan((gaps.at(-1) ?? 0) + 0.05);
  });

  it('a wavy line over tied notes trills up to its end, over other notes trills each', () => {
    const tie = (type: string) => `<tie type="${type}"/>`;
    const line = (type: string, more = '') =>
      `<notations><ornaments>${more}<wavy-line type="${type}"/></ornaments></notations>`;
    const tied = partwise([
      `${slow}${note('D5/4', tie('start') + line('start', '<trill-mark/>'))}${note('D5/4', tie('stop') + tie('start') + line('stop'))}${note('D5/8', tie('stop'))}`,
    ]);
    const onsets = playedOut(tied);
    expect(onsets).toHaveLength(24);
    expect(onsets.at(-1)?.[0]).toBeLessThan(2);
    const each = partwise([
      `${slow}${note('D5/4', line('start'))}${note('E5/4')}${note('F5/4', line('stop'))}${note('G5/4')}`,
    ]);
    expect(pitches(each).filter((_, index) => index % 10 === 0)).toEqual([76, 77, 79, 79]);
    const open = partwise([`${slow}${note('D5/4', line('start'))}${note('E5/4')}`]);
    expect(playedOut(open).slice(-1)).toEqual([[1, 76]]);
  });

  // MusicXML 4.0, mordent ("with the vertical line", the note below), inverted-mordent, shake, turn ("goes up then down"),
  // inverted-turn, delayed-turn; how fast, and the schleifer and haydn: common practice, no source
  it.each([
    ['<mordent/>', [74, 72, 74]],
    ['<mordent long="yes"/>', [74, 72, 74, 72, 74]],
    ['<mordent/><accidental-mark>sharp</accidental-mark>', [74, 73, 74]],
    ['<inverted-mordent/>', [74, 76, 74]],
    ['<inverted-mordent start-note="upper"/>', [76, 74, 76, 74]],
    ['<shake/>', [76, 74, 76, 74]],
    ['<turn/>', [76, 74, 72, 74]],
    ['<vertical-turn/>', [76, 74, 72, 74]],
    ['<turn start-note="main"/>', [74, 76, 74, 72, 74]],
    [
      '<turn/><accidental-mark placement="above">flat</accidental-mark><accidental-mark placement="below">sharp</accidental-mark>',
      [75, 74, 73, 74],
    ],
    ['<inverted-turn/>', [72, 74, 76, 74]],
    ['<inverted-vertical-turn/>', [72, 74, 76, 74]],
    ['<delayed-turn/>', [74, 76, 74, 72, 74]],
    ['<delayed-inverted-turn/>', [74, 72, 74, 76, 74]],
    ['<schleifer/>', [71, 72, 74]],
    ['<haydn/>', [76, 74, 72, 74]],
    ['<trill-mark beats="4"/><turn/>', [76, 74, 76, 74, 72, 74]],
  ])('%s', (inside, expected) => {
    const onsets = playedOut(partwise([ornament('D5', 4, inside)]));
    expect(onsets.map(([, pitch]) => pitch)).toEqual(expected);
    const isDelayed = inside.includes('delayed');
    // short figures at the beginning, delayed ones at the end of the note
    expect(onsets.at(-1)?.[0]).toBeLessThan(isDelayed ? 1 : 0.96);
    if (isDelayed) expect(onsets[1]?.[0]).toBeGreaterThanOrEqual(0.4);
  });

  // MusicXML 4.0, tremolo: the marks are strokes, beams and flags not counted; two notes are each written for half
  it('tremolos have the strokes of their marks and flags', () => {
    const tremolo = (type: string, marks: number, word = 'quarter', length = 4) =>
      note(
        `C5/${length}`,
        `<type>${word}</type><notations><ornaments><tremolo type="${type}">${marks}</tremolo></ornaments></notations>`,
      );
    expect(playedOut(partwise([tremolo('single', 2)]))).toEqual([0, 0.25, 0.5, 0.75].map((at) => [at, 72]));
    expect(playedOut(partwise([tremolo('single', 1, 'eighth', 2)]))).toEqual([0, 0.25].map((at) => [at, 72]));
    expect(playedOut(partwise([slow + tremolo('unmeasured', 0)]))).toHaveLength(12);
    const two = tremolo('start', 1, 'half') + tremolo('stop', 1, 'half').replace('<step>C', '<step>E');
    expect(playedOut(partwise([two]))).toEqual([
      [0, 72],
      [0.5, 76],
      [1, 72],
      [1.5, 76],
    ]);
  });

  it('tremolos are those of the whole chord', () => {
    const tremolo = '<notations><ornaments><tremolo type="single">1</tremolo></ornaments></notations>';
    const chord =
      note('C5/4', `<type>quarter</type>${tremolo}`) + note('E5/4').replace('<note >', '<note ><chord/>');
    expect(playedOut(partwise([chord]))).toEqual([
      [0, 72],
      [0, 76],
      [0.5, 72],
      [0.5, 76],
    ]);
  });

  // MusicXML 4.0: arpeggios go from the lowest note by default; a glissando sounds the notes between, a slide has none
  it('chords are rolled from the bottom, or as their arrow says; a bracket keeps them together', () => {
    const chord = (sign: string) =>
      partwise([written('C5', 4, sign) + written('G5', 4, sign).replace('<note >', '<note ><chord/>')]);
    const at = (text: string) => playedOut(text).map(([onset, pitch]) => `${onset} ${pitch}`);
    expect(at(chord('<arpeggiate/>'))).toEqual(['0 72', '0.09 79']);
    expect(at(chord('<arpeggiate direction="down"/>'))).toEqual(['0 79', '0.09 72']);
    expect(at(chord('<non-arpeggiate type="top"/>'))).toEqual(['0 72', '0 79']);
  });

  it('a glissando plays every key up to its end; a slide is joined to it', () => {
    const glide = (name: string) =>
      partwise([written('C5', 4, `<${name} type="start"/>`) + written('E5', 4, `<${name} type="stop"/>`)]);
    expect(playedOut(glide('glissando'))).toEqual([
      [0, 72],
      [0.5, 73],
      [0.67, 74],
      [0.83, 75],
      [1, 76],
    ]);
    const { performance } = playScore(encode(glide('slide')), 'test.musicxml', { ornaments: 'played' });
    expect(performance?.parts[0]?.texts).toEqual([{ tick: 0, text: '[legato!]' }]);
  });

  it('their notes are joined, and their mark is gone; other marks stay with the first', () => {
    const both = written(
      'D5',
      4,
      '<ornaments><mordent/></ornaments><articulations><accent/></articulations>',
    );
    const said = (ornaments: 'played' | 'marked') =>
      playScore(encode(partwise([both])), 'test.musicxml', { ornaments }).performance?.parts[0]?.texts.map(
        ({ text }) => text,
      );
    expect(said('marked')).toEqual(['[mordent!]', '[accent!]']);
    expect(said('played')).toEqual(['[legato!]', '[accent!]', '[legato!]']);
  });

  it('a tremolo with more strokes than a score may have notes is refused', () => {
    const endless = note(
      'C5/400000',
      '<type>1024th</type><notations><ornaments><tremolo>8</tremolo></ornaments></notations>',
    );
    const { performance, diagnostics } = playScore(encode(partwise([endless])), 'x', {}, { maxNotes: 1000 });
    expect(performance).toBeUndefined();
    expect(diagnostics.map(({ code }) => code)).toEqual(['score-too-large']);
  });
});
