import { describe, expect, it } from 'vitest';
import { MeantNotes, prove } from '../../src/prove/index.js';
import { proofJson, proofText } from '../../src/report/proof.js';
import { fileOf, library, meantNotes, note, proofOf, tap } from '../prove/events.js';
import { songOf, trackOf } from '../support/song.js';

const map = library(['one: {switch: {note: 0}}', 'two: {switch: {note: 1}}']);
const music = [...note(500, 1900, 60), ...note(2100, 3900, 62), ...note(4100, 5900, 64)];
const meant = [
  [500, 60, 'one'],
  [2100, 62, 'one'],
  [4100, 64, 'one'],
] as const;
const right = proofOf({ map, meant, input: music, output: [...tap(480, 0), ...music] });
const wrong = proofOf({
  map,
  meant: [...meant.slice(0, 2), [4100, 64, 'two']],
  output: [...tap(480, 0), ...music],
});

describe('proofText', () => {
  it('has the counts first, then playback from any bar', () => {
    expect(proofText(right)).toBe(`test.mid: all 3 notes sound as meant.
Compared with the input, event by event.
Nothing is wrong.

Track 1, channel 1: Test Library, Test Instrument
  Playback is right from 1 of 3 bars. From the others, until the next switches:
    bars 2–3: 1 to 2 notes sound wrong
  To cure it, compile with one of these, or write it into the map's switching:
    --restate 1  restate: {every-bars: 1}  (2 more switches)
`);
  });

  it('does not say that all is well where notes were not found', () => {
    const text = proofText({ ...wrong, parts: wrong.parts.map((part) => ({ ...part, wrongNotes: 0 })) });
    expect(text).toContain('test.mid: of 3 notes that were found, each sounds as meant, but:');
  });

  it('has each violation with its bar and beat', () => {
    const text = proofText(wrong);
    expect(text).toContain('test.mid: 2 of 3 notes sound as meant, 1 do not.');
    expect(text).toContain('Not compared with an input');
    expect(text).toContain(
      '1 thing is wrong:\n  3.1  the note E4 (64) sounds as one, where two is meant  [wrong-articulation]',
    );
  });

  it('names the track where there are several parts', () => {
    const part = (channel: number) => ({
      part: { track: 1, trackName: '', channel },
      map,
      meant: meantNotes(meant),
    });
    expect(proofText(prove({ output: fileOf(music), parts: [part(0), part(1)] }))).toContain(
      '  track 1, 1.2  the note C4',
    );
  });

  it('lists a dozen stretches of bars, and then how many more there are and where', () => {
    const proved = right.parts[0];
    if (!proved) throw new Error('there is no part');
    const withStretches = (count: number) => {
      const wrongFrom = Array.from({ length: count }, (_, index) => {
        return { from: 2 + 3 * index, to: 3 + 3 * index, wrongNotes: 1 };
      });
      return proofText({ ...right, parts: [{ ...proved, bars: 9000, wrongFrom }] });
    };
    const long = withStretches(3000);
    expect(long.split('\n').filter((line) => line.includes('sounds wrong'))).toHaveLength(12);
    expect(long).toContain('    and 2988 more stretches like these, from bar 38 on (--json lists all)\n');
    // One more line would say no less than that stretch itself.
    expect(withStretches(13)).not.toContain('more stretches');
  });

  it('says when there is nothing to hear, and nothing to cure', () => {
    expect(proofText(proofOf({ map, meant: [], output: [] }))).toContain('there are no notes to hear.');
    const one = proofOf({ map, meant: meant.slice(0, 1), output: [...tap(480, 0), ...note(500, 1900, 60)] });
    expect(proofText(one)).toContain('Playback is right from every bar.');
    expect(proofText(one)).toContain('the only note sounds as meant.');
  });

  it('tells ticks where the file has no bars', () => {
    const output = songOf([trackOf([{ tick: 40, end: 80, pitch: 60 }])], {
      smpte: { framesPerSecond: 25, ticksPerFrame: 40 },
    });
    const parts = [
      { part: { track: 1, trackName: '', channel: 0 }, map, meant: meantNotes([[40, 60, 'one']]) },
    ];
    const text = proofText(prove({ output, parts }));
    expect(text).toContain('  tick 40  the note C4');
    expect(text).toContain('The file has no bars');
  });

  it('shows what could be obeyed by a terminal as it is written', () => {
    const named = { ...map, library: 'a\u001b[31mb', instrument: 'c\u202ed' };
    const output = { ...fileOf(music), file: 'x\ny.mid' };
    const parts = [
      { part: { track: 1, trackName: '\u0007', channel: 0 }, map: named, meant: new MeantNotes() },
    ];
    const text = proofText(prove({ output, parts }));
    expect(text).toContain('x\\u{a}y.mid');
    expect(text).toContain('"\\u{7}"');
    expect(text).toContain('a\\u{1b}[31mb, c\\u{202e}d');
  });
});

describe('proofJson', () => {
  it('counts channels from 1, and names settings as maps do', () => {
    expect(proofJson(right)).toEqual({
      input: 'test.mid',
      proved: true,
      compared: true,
      notes: 3,
      violations: [],
      parts: [
        {
          track: 1,
          name: '',
          channel: 1,
          library: 'Test Library',
          instrument: 'Test Instrument',
          notes: 3,
          wrongNotes: 0,
          bars: 3,
          wrongFrom: [
            { from: 2, to: 2, wrongNotes: 2 },
            { from: 3, to: 3, wrongNotes: 1 },
          ],
          cures: [{ restate: { 'every-bars': 1 }, moreSwitches: 2, wrongBars: 0 }],
        },
      ],
    });
    expect(proofJson(wrong)).toMatchObject({
      proved: false,
      compared: false,
      violations: [{ channel: 1, bar: 3, beat: 1 }],
    });
  });
});
