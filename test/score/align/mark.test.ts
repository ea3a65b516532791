import fc from 'fast-check';
import { parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { markTake } from '../../../src/score/align/index.js';
import { draws } from '../../support/draws.js';
import { direction, encode, note, notes, partwise } from '../written.js';
import { songBytes, type TakeNote } from './song.js';

const dot = '<notations><articulations><staccato/></articulations></notations>';
const score = partwise([
  `${direction('<dynamics><p/></dynamics>')}${note('C4/4', dot)}${notes('D4/4')}${direction('<words>pizz.</words>')}${notes('E4/4')}${note('F4/4', dot)}`,
  `${direction('<dynamics><f/></dynamics>')}${notes('G4/8')}${note('C5/8', dot)}`,
]);

function mark(take: Uint8Array, written = score) {
  return markTake({ bytes: take, file: 'take.mid' }, { bytes: encode(written), file: 'score.musicxml' });
}

/** Texts of a track of a file, with their ticks. */
function textsIn(bytes: Uint8Array | undefined, track: number): readonly string[] {
  if (!bytes) throw new Error('nothing was written');
  let tick = 0;
  return (parseMidi(bytes).tracks[track] ?? []).flatMap((event) => {
    tick += event.deltaTime;
    return event.type === 'text' ? [`${tick} ${event.text}`] : [];
  });
}

const tune: readonly TakeNote[] = [
  [30, 60],
  [470, 62],
  [1010, 64],
  [1490, 65],
  [2030, 67],
  [2960, 72],
];

describe('a take with the marks of its score', () => {
  it('has each mark at the onset that it is for, and what holds where its music begins', () => {
    const { bytes, unmatched, diagnostics, found, written } = mark(songBytes([tune]));
    expect(textsIn(bytes, 0)).toEqual([
      '30 [p]',
      '30 [staccato!]',
      '1010 [pizz.]',
      '1490 [staccato!]',
      '2030 [f]',
      '2960 [staccato!]',
    ]);
    expect({ unmatched, diagnostics, found, written }).toEqual({
      unmatched: [],
      diagnostics: [],
      found: 6,
      written: 6,
    });
  });

  it('tells what is missing, wrong or too many, with the bars of the score; the mark of a missing note is not put', () => {
    const { unmatched, edits } = mark(
      songBytes([
        [
          [30, 60],
          [470, 63],
          [1010, 64],
          [1700, 40],
          [2030, 67],
          [2960, 72],
        ],
      ]),
    );
    expect(unmatched).toEqual([
      { kind: 'wrong', bar: '1', pass: 1, part: 'Horn', pitch: 62, played: 63, track: 1, tick: 470 },
      { kind: 'missing', bar: '1', pass: 1, part: 'Horn', pitch: 65 },
      { kind: 'extra', bar: '1', pass: 1, part: 'Horn', pitch: 40, track: 1, tick: 1700 },
      { kind: 'mark', bar: '1', pass: 1, part: 'Horn', text: '[staccato!]' },
    ]);
    expect(edits.filter(({ text }) => text === '[staccato!]').map(({ tick }) => tick)).toEqual([30, 2960]);
  });

  it('tells once of a bar that was not played, as of a repeat that was not made', () => {
    const repeated = score.replace(
      '</measure></part>',
      '<barline><repeat direction="backward"/></barline></measure></part>',
    );
    const { unmatched, edits } = mark(songBytes([tune]), repeated);
    expect(unmatched.map(({ kind }) => kind)).toEqual(['bar', 'bar']);
    expect(edits.filter(({ text }) => text === '[staccato!]').map(({ tick }) => tick)).toEqual([
      30, 1490, 2960,
    ]);
  });

  it('loses nothing of the take: without the texts it is what it was', () => {
    const takeNote = fc.tuple(fc.nat(4000), fc.integer({ min: 58, max: 74 }));
    fc.assert(
      fc.property(fc.array(takeNote, { maxLength: 12 }), (all) => {
        const take = songBytes([all]);
        const bytes = mark(take).bytes ?? new Uint8Array();
        const kept = (file: Uint8Array) => {
          let tick = 0;
          return (parseMidi(file).tracks[0] ?? []).flatMap(({ deltaTime, ...event }) => {
            tick += deltaTime;
            return event.type === 'text' ? [] : [{ ...event, tick, running: undefined }];
          });
        };
        expect(kept(bytes)).toEqual(kept(take));
      }),
      { numRuns: draws(60) },
    );
  });

  it('pairs tracks with parts by name, else in order, else all with all', () => {
    const list =
      '<score-part id="P1"><part-name>Horn</part-name></score-part><score-part id="P2"><part-name>Flute</part-name></score-part>';
    const second = `<part id="P2"><measure number="1"><attributes><divisions>4</divisions></attributes>${note('A5/8', dot)}${notes('B5/8')}</measure></part>`;
    const two = partwise([notes('C4/8 D4/8')], list).replace(
      '</score-partwise>',
      `${second}</score-partwise>`,
    );
    const horn: readonly TakeNote[] = [
      [0, 60],
      [900, 62],
    ];
    const flute: readonly TakeNote[] = [
      [10, 81],
      [920, 83],
    ];
    const edits = (take: Uint8Array) => mark(take, two).edits;
    expect(edits(songBytes([flute, horn], ['flute ', 'Horn']))).toEqual([
      { track: 1, tick: 10, text: '[staccato!]' },
    ]);
    expect(edits(songBytes([horn, flute]))).toEqual([{ track: 2, tick: 10, text: '[staccato!]' }]);
    expect(edits(songBytes([[...horn, ...flute]]))).toEqual([{ track: 1, tick: 10, text: '[staccato!]' }]);
  });

  it('refuses what would take more memory than there is', () => {
    const { bytes, diagnostics } = markTake(
      { bytes: songBytes([tune]), file: 'take.mid' },
      { bytes: encode(score), file: 'score.musicxml' },
      { maxCells: 35 },
    );
    expect(bytes).toBeUndefined();
    expect(diagnostics).toMatchObject([
      { code: 'score-too-large', place: { kind: 'file', file: 'take.mid' } },
    ]);
  });

  it('tells what cannot be read, of both files, and writes nothing', () => {
    const { bytes, diagnostics } = markTake(
      { bytes: encode('no'), file: 'a.mid' },
      { bytes: encode('<no>'), file: 'b.xml' },
    );
    expect(bytes).toBeUndefined();
    expect(diagnostics.map(({ code }) => code)).toEqual(['not-midi', 'xml-syntax']);
  });

  it('notes of an ornament belong to the note that has it, however it was played', () => {
    const ornament = (name: string) => `<notations><ornaments><${name}/></ornaments></notations>`;
    const ornamented = partwise([
      `${notes('C4/4')}${note('D4/4', ornament('trill-mark'))}${note('E4/4', ornament('turn'))}${notes('F4/4')}`,
      notes('G4/4 A4/4 B4/4 C5/4'),
    ]);
    const trill: readonly TakeNote[] = [
      [5, 60],
      // faster than it would be played out, with an ending from below
      ...[64, 62, 64, 62, 64, 62, 64, 62, 61, 62].map((pitch, index): TakeNote => [470 + 48 * index, pitch]),
      ...[65, 64, 62, 64].map((pitch, index): TakeNote => [955 + 60 * index, pitch]),
      [1440, 65],
      [1920, 67],
      [2400, 69],
      [2880, 71],
      [3360, 72],
    ];
    const { bytes, unmatched, found } = mark(songBytes([trill]), ornamented);
    expect(textsIn(bytes, 0)).toEqual(['470 [trill-mark!]', '955 [turn!]']);
    expect({ unmatched, found }).toEqual({ unmatched: [], found: 8 });
  });

  it('a note far from an ornament, in pitch or time, is too many as ever', () => {
    const trill = '<notations><ornaments><trill-mark/></ornaments></notations>';
    const ornamented = partwise([`${notes('C4/4')}${note('D4/4', trill)}${notes('E4/4 F4/4')}`]);
    const { unmatched } = mark(
      songBytes([
        [
          [0, 60],
          [480, 62],
          [600, 79],
          [960, 64],
          [1200, 62],
          [1440, 65],
        ],
      ]),
      ornamented,
    );
    expect(unmatched).toMatchObject([
      { kind: 'extra', pitch: 79, tick: 600 },
      { kind: 'extra', pitch: 62, tick: 1200 },
    ]);
  });
});
