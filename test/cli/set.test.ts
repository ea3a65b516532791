import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { notes, partwise } from '../score/written.js';
import { keyslip, scratchFolder } from '../support/cli.js';
import { bytesOf, type TestNote, tempoAt, trackOf } from '../support/song.js';

const cwd = scratchFolder();
const put = (name: string, content: Uint8Array | string) => {
  writeFileSync(join(cwd, name), content);
  return name;
};
/** Two bars of 4/4: on 1 and 3, the last a little late. */
const strokes = [0, 960, 1920, 2890].map((tick, index): TestNote => {
  return { tick, end: tick + 300, pitch: 38, velocity: 90 + index, channel: 9 };
});
const rhythm = put('rhythm.mid', bytesOf([trackOf(strokes, [tempoAt(0, 120)], 'Boots')]));
const chords = put('chords.txt', '| C | G7 |\n');
const run = (...words: string[]) => keyslip(['set', ...words], { cwd });

/** Onsets as [tick, pitch, velocity], track by track. */
function struck(bytes: Uint8Array) {
  return parseMidi(bytes).tracks.map((track) => {
    let tick = 0;
    return track.flatMap((event) => {
      tick += event.deltaTime;
      return event.type === 'noteOn' ? [[tick, event.noteNumber, event.velocity] as const] : [];
    });
  });
}
const read = (name: string) => new Uint8Array(readFileSync(join(cwd, name)));

describe('keyslip set', () => {
  it('strikes the chords of a text where the rhythm does', () => {
    const { status, out, err } = run(chords, '--to', rhythm, '-o', 'set.mid');
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toBe('chords.txt → set.mid\n  4 strokes\n  "Chords": 18 notes\n');
    const [head, played] = struck(read('set.mid'));
    expect(head).toEqual([]);
    // By hand: C3 below C E G from G3 upward; G2 below G B D F.
    const expected = [
      ...[0, 960].flatMap((tick, index) => [48, 55, 60, 64].map((pitch) => [tick, pitch, 90 + index])),
      ...[1920, 2890].flatMap((tick, index) =>
        [43, 55, 59, 62, 65].map((pitch) => [tick, pitch, 92 + index]),
      ),
    ];
    expect(played).toEqual(expected);
  });

  it('takes a sketch or a score for its chords, whatever their names end in', () => {
    const sketch = [48, 64].map((pitch) => ({ tick: 0, end: 3800, pitch }));
    put('sketch.txt', bytesOf([trackOf(sketch, [], 'Piano')]));
    expect(run('sketch.txt', '--to', rhythm, '-o', 'from-sketch.mid').status).toBe(0);
    expect(struck(read('from-sketch.mid'))[1]?.map(([, pitch]) => pitch)).toEqual([
      48, 64, 48, 64, 48, 64, 48, 64,
    ]);
    put('written.txt', partwise([notes('C4/16'), notes('G4/16')]));
    expect(run('written.txt', '--to', rhythm, '-o', 'from-score.mid').status).toBe(0);
    expect(struck(read('from-score.mid'))[1]?.map(([, pitch]) => pitch)).toEqual([60, 60, 67, 67]);
  });

  it('rolls only where that is asked for, the same each time, otherwise by another seed', () => {
    const ticks = (name: string) => (struck(read(name))[1] ?? []).map(([tick]) => tick);
    for (const [name, ...words] of [
      ['a.mid'],
      ['b.mid', '--roll'],
      ['c.mid', '--roll'],
      ['d.mid', '--roll', '--seed', '7'],
    ])
      expect(run(chords, '--to', rhythm, '-o', name ?? '', ...words).status).toBe(0);
    expect(new Set(ticks('a.mid')).size).toBe(4);
    expect(new Set(ticks('b.mid')).size).toBeGreaterThan(8);
    expect(read('b.mid')).toEqual(read('c.mid'));
    expect(read('b.mid')).not.toEqual(read('d.mid'));
    const wide = run(chords, '--to', rhythm, '-o', 'e.mid', '--roll', '60ms', '--roll-order', 'low-high');
    expect(wide.status).toBe(0);
    const spread = (name: string) =>
      Math.max(...ticks(name).slice(4, 8)) - Math.min(...ticks(name).slice(4, 8));
    expect(spread('e.mid')).toBeGreaterThan(spread('b.mid'));
  });

  it('prints JSON, reads standard input and writes standard output', () => {
    const json = run(chords, '--to', rhythm, '-o', 'json.mid', '--json');
    expect(JSON.parse(json.out)).toEqual({
      format: 'keyslip-report/1',
      input: 'chords.txt',
      output: 'json.mid',
      rhythm: 'rhythm.mid',
      strokes: 4,
      tracks: [{ name: 'Chords', notes: 18 }],
      diagnostics: [],
    });
    const piped = keyslip(['set', '-', '--to', rhythm, '-o', '-'], { cwd, input: '| C | G7 |' });
    expect(piped.status).toBe(0);
    expect(piped.bytes).toEqual(read('json.mid'));
    expect(piped.err).toContain('standard output');
  });

  it('tells of every symbol that it does not know, with its place, and writes nothing', () => {
    put('wrong.txt', '| Dm | Hm |\n| Foo |\n');
    const { status, err } = run('wrong.txt', '--to', rhythm, '-o', 'none.mid');
    expect(status).toBe(1);
    expect(err).toContain('wrong.txt:1:8: error [unknown-chord]');
    expect(err).toContain('wrong.txt:2:3: error [unknown-chord]');
    expect(existsSync(join(cwd, 'none.mid'))).toBe(false);
    put('bytes.txt', Uint8Array.from([0x80, 0x81, 0xff]));
    expect(run('bytes.txt', '--to', rhythm, '-o', 'none.mid')).toMatchObject({
      status: 1,
      err: expect.stringContaining('neither MIDI, nor a score, nor a text'),
    });
  });

  it('tells of a rhythm without strokes, of strokes outside the chords, and of music without bars', () => {
    put('empty.mid', bytesOf([trackOf([], [], 'Nothing')]));
    expect(run(chords, '--to', 'empty.mid', '-o', 'none.mid').err).toContain('empty.mid: error [no-strokes]');
    put('short.txt', '| C |');
    const short = run('short.txt', '--to', rhythm, '-o', 'short.mid');
    expect(short.status).toBe(0);
    expect(short.err).toContain(
      'rhythm.mid, track 1 "Boots", bar 2 beat 1 (tick 1920): warning [chords-end]',
    );
    expect(run('short.txt', '--to', rhythm, '-o', 'strict.mid', '--strict').status).toBe(1);
    expect(existsSync(join(cwd, 'strict.mid'))).toBe(false);
    put('smpte.mid', bytesOf([trackOf(strokes)], { smpte: { framesPerSecond: 25, ticksPerFrame: 40 } }));
    expect(run(chords, '--to', 'smpte.mid', '-o', 'none.mid').err).toContain('[no-bars]');
    put('later.txt', '| . | C |');
    expect(run('later.txt', '--to', rhythm, '-o', 'later.mid').err).toContain('[stroke-before-chords]');
  });

  it.each([
    [[chords, '--to', rhythm], 'say where the result goes'],
    [[chords, '--to', rhythm, '-o', rhythm], 'the output would overwrite rhythm.mid'],
    [[chords, '--to', rhythm, '-o', chords], 'the output would overwrite chords.txt'],
    [['-', '--to', '-', '-o', 'x.mid'], 'only one of the files'],
    [[chords, '-o', 'x.mid'], '--to'],
    [[chords, '--to', rhythm, '-o', 'x.mid', '--seed', '3'], 'give --roll too'],
    [[chords, '--to', rhythm, '-o', 'x.mid', '--roll', 'much'], 'Write a time as 18ms'],
  ])('refuses the command line %j', (words, says) => {
    const { status, err } = run(...words);
    expect(status).toBe(2);
    expect(err).toContain(says);
  });
});
