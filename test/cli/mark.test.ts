import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { songBytes, type TakeNote } from '../score/align/song.js';
import { archive, container } from '../score/container/archive.js';
import { direction, note, notes, partwise } from '../score/written.js';
import { keyslip, scratchFolder } from '../support/cli.js';

const cwd = scratchFolder();
const put = (name: string, content: Uint8Array | string) => {
  writeFileSync(join(cwd, name), content);
  return name;
};
const staccato = '<notations><articulations><staccato/></articulations></notations>';
const text = partwise([
  direction('<dynamics><p/></dynamics>') + note('C4/4', staccato) + notes('D4/4 E4/4 F4/4'),
  direction('<dynamics><f/></dynamics>') + notes('G4/8') + note('C5/8', staccato),
]);
const score = put('night.musicxml', text);
/** Played freely. */
const line: readonly TakeNote[] = [
  [30, 60],
  [470, 62],
  [1010, 64],
  [1490, 65],
  [2030, 67],
  [2960, 72],
];
const take = put('take.mid', songBytes([line], ['Horn']));
const run = (...words: string[]) => keyslip(['mark', ...words], { cwd });

/** Texts with their ticks, from all tracks. */
function textsIn(name: string): readonly string[] {
  return parseMidi(new Uint8Array(readFileSync(join(cwd, name)))).tracks.flatMap((track) => {
    let tick = 0;
    return track.flatMap((event) => {
      tick += event.deltaTime;
      return event.type === 'text' ? [`${tick} ${event.text}`] : [];
    });
  });
}

describe('keyslip mark', () => {
  it("writes a score's marks where they were played", () => {
    const { status, out, err } = run(take, '--score', score, '-o', 'marked.mid');
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toBe('take.mid → marked.mid\n  6 of 6 written notes found, 4 marks written\n');
    expect(textsIn('marked.mid')).toEqual(['30 [p]', '30 [staccato!]', '2030 [f]', '2960 [staccato!]']);
  });

  it('compiles as it is marked, and dynamics are no marks that are not known', () => {
    const map = resolve('maps/general-midi-strings.yaml');
    const compiled = keyslip(['compile', 'marked.mid', '--map', map, '-o', 'compiled.mid', '--json'], {
      cwd,
    });
    expect({ status: compiled.status, err: compiled.err }).toEqual({ status: 0, err: '' });
  });

  it('reads compressed scores, and tells what was not matched, by bars', () => {
    const data = new TextEncoder().encode(text);
    put('night.mxl', archive([container('score.musicxml'), { path: 'score.musicxml', data }]));
    const slips = put('slips.mid', songBytes([[...line.slice(0, 3), [1490, 66], [2030, 67], [2400, 71]]]));
    const { status, out } = run(slips, '--score', 'night.mxl', '-o', 'slips.marked.mid');
    expect(status).toBe(0);
    expect(out).toContain('not matched:');
    expect(out).toMatch(/ {4}bar 1, Horn: F♯?#?4 in place of F4/u);
    expect(out).toMatch(/ {4}bar 2, Horn: .*/u);
    const json = run(slips, '--score', 'night.mxl', '-o', 'x.mid', '--json');
    expect(JSON.parse(json.out)).toMatchObject({ input: 'slips.mid', score: 'night.mxl', written: 6 });
  });

  it('takes nothing but a score for the score, and refuses what is wrong with either', () => {
    expect(run(take, '--score', take, '-o', 'none.mid')).toMatchObject({
      status: 1,
      err: expect.stringContaining('take.mid: error [score-kind]'),
    });
    put('broken.musicxml', '<score-partwise><part');
    put('no.mid', 'x');
    const { status, err } = run('no.mid', '--score', 'broken.musicxml', '-o', 'none.mid');
    expect(status).toBe(1);
    expect(err).toContain('[not-midi]');
    expect(err).toContain('[xml-syntax]');
    expect(existsSync(join(cwd, 'none.mid'))).toBe(false);
  });

  it.each([
    [[take, '--score', score], 'say where the result goes'],
    [[take, '--score', score, '-o', take], 'would overwrite take.mid'],
    [[take, '--score', score, '-o', score], 'would overwrite night.musicxml'],
    [[take, '-o', 'x.mid'], '--score'],
  ])('refuses the command line %j', (words, says) => {
    const { status, err } = run(...words);
    expect(status).toBe(2);
    expect(err).toContain(says);
  });
});
