import { copyFileSync, cpSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { playScore } from '../../src/score/index.js';
import { direction, note, notes, partwise } from '../score/written.js';
import { keyslip, scratchFolder } from '../support/cli.js';

const cwd = scratchFolder();
const map = resolve('maps/lantern-street-strings.yaml');
const put = (name: string, content: Uint8Array | string) => {
  writeFileSync(join(cwd, name), content);
  return name;
};
const staccato = '<notations><articulations><staccato/></articulations></notations>';
const score = put(
  'night.musicxml',
  partwise(
    [direction('<dynamics><mf/></dynamics>') + note('C5/4', staccato) + notes('D5/4 E5/8'), notes('G5/16')],
    '<score-part id="P1"><part-name>Violas</part-name></score-part>',
  ),
);
/** Written twice for each element, so that a recording cannot be meant. */
const mei = put(
  'night.mei',
  `<?xml version="1.0"?><mei xmlns="http://www.music-encoding.org/ns/mei"><music><body><mdiv><score>
<scoreDef meter.count="4" meter.unit="4"><staffGrp><staffDef n="1" lines="5" clef.shape="G" clef.line="2" label="Violas"/></staffGrp></scoreDef>
<section><measure n="1"><staff n="1"><layer n="1"><note pname="c" oct="5" dur="2"/><note pname="e" oct="5" dur="2"/></layer></staff></measure></section>
</score></mdiv></body></music></mei>`,
);
const run = (words: string, input?: string | Uint8Array) =>
  keyslip(words.split(' '), { cwd, ...(input === undefined ? {} : { input }) });
const read = (name: string) => new Uint8Array(readFileSync(join(cwd, name)));

describe('a score where a recording is', () => {
  it('is compiled as it is written, and proved against itself', () => {
    const { status, out, err } = run(`compile ${score} --map ${map} -o out.mid --prove`);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toContain('night.musicxml → out.mid\nTrack 2 "Violas", channel 1');
    expect(out).toContain('Proved:');
    expect(run(`prove out.mid --map ${map} --against ${score}`).out).toContain('Nothing is wrong.');
  });

  it('is explained by its marks, at its bars', () => {
    const { status, out } = run(`explain ${score} --map ${map} --at 1.1`);
    expect(status).toBe(0);
    expect(out).toContain('staccato');
  });

  it('is known by its content, in a file of any name and from standard input', () => {
    copyFileSync(join(cwd, score), join(cwd, 'score.mid'));
    expect(run(`compile score.mid --map ${map} -o named.mid`).status).toBe(0);
    expect(read('named.mid')).toEqual(read('out.mid'));
    const piped = run(`compile - --map ${map} -o -`, readFileSync(join(cwd, score)));
    expect(piped.bytes).toEqual(read('out.mid'));
    const utf16 = Buffer.from(
      `\ufeff${readFileSync(join(cwd, score), 'utf8').replace('UTF-8', 'UTF-16')}`,
      'utf16le',
    );
    expect(run(`compile - --map ${map} -o -`, utf16).bytes).toEqual(read('out.mid'));
    copyFileSync('test/score/files/90a-Compressed-MusicXML.mxl', join(cwd, 'packed.bin'));
    expect(run('inspect packed.bin').out).toContain('Track 2 "Voice"');
    expect(run(`inspect ${mei}`).out).toContain('Track 2 "Violas", channel 1: 2 notes');
  });

  it('is drawn, compared, and begun a cue for', () => {
    expect(run(`sheet ${score} --map ${map} -o night.html`).out).toContain('1 part, 4 notes');
    expect(read('night.html').length).toBeGreaterThan(10_000);
    expect(run(`compare ${map} ${map} ${score}`).status).toBe(0);
    expect(run(`init --cue ${score}`).out).toContain('night.cue.yaml is written');
    expect(readFileSync(join(cwd, 'night.cue.yaml'), 'utf8')).toContain(
      'source: "night.musicxml"\noutput: "night.switched.mid"',
    );
  });

  it('is the source of a cue', () => {
    cpSync(map, join(cwd, 'violas.yaml'));
    put(
      'piece.cue.yaml',
      'format: keyslip-cue/1\nsource: night.musicxml\noutput: piece.mid\nparts:\n  - {name: Violas, track: Violas, map: violas.yaml}\n',
    );
    const { status, err } = run('cue piece.cue.yaml --prove');
    expect(status).toBe(0);
    // A cue may let dynamics be read from the music, and this one does not.
    expect(err).toContain('night.musicxml, track 2 "Violas", bar 1 beat 1 (tick 0): warning [mark-in-music]');
    expect(read('piece.mid')).toEqual(read('out.mid'));
  });

  it('never gives way to its result', () => {
    const before = read(score);
    expect(run(`compile ${score} --map ${map} --in-place`)).toMatchObject({
      status: 2,
      err: expect.stringContaining('a score cannot take the result in its place'),
    });
    expect(run(`compile ${score} --map ${map} -o ${score}`).status).toBe(2);
    expect(read(score)).toEqual(before);
  });

  it('is told of with line and column where it is wrong', () => {
    put('wrong.musicxml', '<score-partwise version="4.0">\n<part-list></score-partwise>');
    const { status, err } = run(`compile wrong.musicxml --map ${map} -o none.mid`);
    expect(status).toBe(1);
    expect(err).toMatch(/wrong\.musicxml:2:\d+: error \[xml-syntax\]/u);
    put('page.html', '<html></html>');
    expect(run('inspect page.html').err).toContain('error [score-kind]');
    expect(existsSync(join(cwd, 'none.mid'))).toBe(false);
  });
});

describe('MusicXML for a copyist', () => {
  it('is written where the name of the sheet asks for it, and read back with pitches, values and marks', () => {
    const { status, out, err } = run(`sheet ${score} --map ${map} -o copy.musicxml`);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toBe(
      'night.musicxml → copy.musicxml\n  1 part, 4 notes, 4 switches, 2 bars\n'.replace(
        '4 switches',
        /\d+ switch(es)?/u.exec(out)?.[0] ?? '',
      ),
    );
    const again = playScore(read('copy.musicxml'), 'copy.musicxml').performance;
    expect(again?.parts.map(({ name }) => name)).toEqual(['Violas']);
    const { ppq = 1, parts = [] } = again ?? {};
    expect(parts[0]?.notes.map(({ tick, pitch }) => [tick / ppq, pitch])).toEqual([
      [0, 72],
      [1, 74],
      [2, 76],
      [4, 79],
    ]);
    expect(parts[0]?.notes[0]?.marks).toEqual(['staccato']);
    expect(new TextDecoder().decode(read('copy.musicxml'))).toContain('<dynamics><mf/></dynamics>');
  });

  it('of a cue has its parts, its dynamics as signs and its hairpins as words, and nothing of libraries', () => {
    const cue = resolve('maps/demo/skerry-point.cue.yaml');
    expect(run(`sheet ${cue} -o skerry.musicxml`).status).toBe(0);
    const xml = new TextDecoder().decode(read('skerry.musicxml'));
    expect(xml).toContain('<part-name>Violins, upper desks</part-name>');
    expect(xml).toContain('<dynamics><ff/></dynamics>');
    expect(xml).toContain('<words>cresc.</words>');
    expect(xml).not.toContain('▲');
    expect(xml).not.toContain('other-dynamics');
  });

  it('is not promised by a name where something else would be written', () => {
    for (const words of [
      `compile ${score} --map ${map} -o x.musicxml`,
      `sheet ${score} --map ${map} -o x.mxl`,
      `mark ${score} --score ${score} -o x.mei`,
      'cue piece.cue.yaml -o x.musicxml',
    ])
      expect(run(words)).toMatchObject({
        status: 2,
        err: expect.stringContaining('keyslip sheet -o SCORE.musicxml'),
      });
    expect(existsSync(join(cwd, 'x.musicxml'))).toBe(false);
  });

  it('tells of notes that it cannot write', () => {
    const low = notes('C2/16').replace('<octave>2', '<octave>-1');
    put('low.musicxml', partwise([low]));
    const basses = put(
      'any.yaml',
      'format: keyslip-map/1\nlibrary: Any\ninstrument: Any\nfamily: other\nnote-60: C4\nrange: [0, 127]\narticulations: {plain: {}}\nrules: [{use: plain}]\n',
    );
    const { status, err } = run(`sheet low.musicxml --map ${basses} -o low2.musicxml`);
    expect(status).toBe(0);
    expect(err).toContain('low.musicxml, track 2 "Horn", bar 1 beat 1 (tick 0): warning [note-too-low]');
  });
});
