import { describe, expect, it } from 'vitest';
import { ppqOf } from '../../../src/score/musicxml/ppq.js';
import { codesOf, direction, notes, onsets, partwise, played } from '../written.js';

const swing = (inside: string) => `<sound><swing>${inside}</swing></sound>`;

describe('time of MusicXML', () => {
  it('ticks hold every division, where a file can say them', () => {
    for (const divisions of [[1], [2, 3], [480], [5, 7, 8], [24, 768], [10080], [31], [32767]])
      for (const one of divisions) expect(ppqOf(divisions) % one).toBe(0);
    expect(ppqOf([32766, 32765])).toBe(10080);
    expect(ppqOf([0.5])).toBe(10080);
    for (const divisions of [[], [1], [7], [10007]]) expect(ppqOf(divisions)).toBeGreaterThanOrEqual(480);
  });

  it('tempo is quarters a minute, of a sound or of a metronome mark, the sound before the mark', () => {
    const metronome =
      '<metronome><beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>ca. 80</per-minute></metronome>';
    const text = partwise([
      `${direction(metronome)}${notes('C4/8')}${direction(metronome, '<sound tempo="90"/>')}${notes('C4/8')}`,
    ]);
    expect(played(text).tempi.map(({ quartersPerMinute }) => quartersPerMinute)).toEqual([120, 90]);
    expect(codesOf(partwise([`<sound tempo="fast"/>${notes('C4/16')}`]))).toEqual(['score-value']);
  });

  it('two to one swings eighths to triplets; triplets, beats and grace notes stay (MusicXML 4.0, swing)', () => {
    const eighths = notes('C4/2 C4/2 C4/2 C4/2 C4/8');
    expect(
      onsets(partwise([`${swing('<first>2</first><second>1</second>')}${eighths}`])).map(([at]) => at),
    ).toEqual([0, 0.667, 1, 1.667, 2]);
    expect(onsets(partwise([`${swing('<straight/>')}${eighths}`])).map(([at]) => at)).toEqual([
      0, 0.5, 1, 1.5, 2,
    ]);
    const sixteenths = notes('C4/1 C4/1 C4/1 C4/1 C4/12');
    const swung = swing('<first>3</first><second>1</second><swing-type>16th</swing-type>');
    expect(onsets(partwise([`${swung}${sixteenths}`])).map(([at]) => at)).toEqual([0, 0.375, 0.5, 0.875, 1]);
  });

  it('metres of sums and pairs are counted together; nonsense is told', () => {
    const time = (inside: string) => `<attributes><time>${inside}</time></attributes>${notes('C4/4')}`;
    const metre = (inside: string) => played(partwise(['', time(inside)])).bars[1]?.metre;
    expect(metre('<beats>3+2</beats><beat-type>8</beat-type>')).toEqual({ beats: 5, beatType: 8 });
    expect(metre('<beats>3</beats><beat-type>8</beat-type><beats>1</beats><beat-type>4</beat-type>')).toEqual(
      { beats: 5, beatType: 8 },
    );
    expect(metre('<senza-misura/>')).toBeNull();
    expect(codesOf(partwise([time('<beats>x</beats><beat-type>3</beat-type>')]))).toEqual(['score-value']);
  });

  it('a Fine inside its bar ends the music there', () => {
    const text = partwise([
      `${notes('C4/8')}<sound fine="yes"/>${notes('D4/8')}`,
      `${notes('E4/16')}<sound dacapo="yes"/>`,
    ]);
    expect(onsets(text)).toEqual([
      [0, 60],
      [2, 62],
      [4, 64],
      [8, 60],
    ]);
    expect(played(text).endTick).toBe(10 * played(text).ppq);
  });

  it('what is longer than a MIDI file can say is refused', () => {
    expect(codesOf(partwise([notes('C4/999999999999')]))).toEqual(['score-too-large']);
    expect(codesOf(partwise([notes('C4/4').replace('<note ', '<note attack="999999999999" ')]))).toEqual([
      'score-too-large',
    ]);
    expect(codesOf(partwise([notes('C4/4')]).replace('<divisions>4', '<divisions>0.0000001'))).toEqual([
      'score-too-large',
    ]);
  });

  it('a backup before the beginning of a bar, and missing divisions, are told', () => {
    expect(codesOf(partwise([`<backup><duration>9</duration></backup>${notes('C4/4')}`]))).toEqual([
      'score-value',
    ]);
    expect(codesOf(partwise([notes('C4/4')]).replace('<divisions>4</divisions>', ''))).toEqual([
      'score-missing',
    ]);
    expect(codesOf(partwise([notes('C4/4')]).replace('<divisions>4', '<divisions>0'))).toContain(
      'score-value',
    );
  });
});
