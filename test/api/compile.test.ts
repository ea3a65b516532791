import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkMap, compile, inspect, prove, sheet } from '../../src/index.js';
import { keyslip, scratchFolder } from '../support/cli.js';

const recording = new Uint8Array(readFileSync('maps/demo/last-boat.mid'));
const map = readFileSync('maps/saltmarsh-horns.yaml', 'utf8');
const maps = { map };

describe('compile', () => {
  it('gives the bytes that the command writes', () => {
    const file = `${scratchFolder()}/out.mid`;
    keyslip(['compile', 'maps/demo/last-boat.mid', '--map', 'maps/saltmarsh-horns.yaml', '-o', file]);
    const { bytes, notes, diagnostics } = compile(recording, { maps });
    expect(Buffer.from(bytes ?? [])).toEqual(readFileSync(file));
    expect(notes[0]?.notes).toHaveLength(38);
    expect(diagnostics).toEqual([]);
  });

  it('changes timing where that is asked for', () => {
    const { bytes } = compile(recording, { maps, timing: { roll: { sdMs: 14, order: 'unordered' } } });
    expect(bytes).not.toEqual(compile(recording, { maps }).bytes);
  });

  it('tells what is wrong with everything that it was given, and throws nothing', () => {
    const { bytes, diagnostics } = compile(new Uint8Array([1, 2, 3]), {
      maps: { map: 'format: none' },
      name: 'take.mid',
    });
    expect(bytes).toBeUndefined();
    expect(diagnostics.map(({ code }) => code)).toEqual(expect.arrayContaining(['not-midi', 'missing-key']));
  });

  it('says which tracks there are where it cannot choose', () => {
    const cue = new Uint8Array(readFileSync('maps/demo/skerry-point.mid'));
    expect(compile(cue, { maps }).diagnostics[0]).toMatchObject({
      code: 'several-tracks',
      hint: expect.stringContaining('Horns'),
    });
    expect(compile(cue, { maps: { map, track: 'Horn' } }).diagnostics[0]).toMatchObject({
      code: 'unknown-track',
      hint: 'did you mean "Horns"?',
    });
    expect(compile(cue, { maps: { map, track: 'Horns' } }).bytes).toBeDefined();
    expect(compile(recording, { maps: { map, channel: 9 } }).diagnostics[0]?.code).toBe('no-notes');
  });
});

describe('prove', () => {
  it('proves what was compiled, and says what is wrong with what was not', () => {
    const { bytes = new Uint8Array() } = compile(recording, { maps });
    expect(prove(bytes, { maps, against: recording })).toMatchObject({ isProved: true, violations: [] });
    expect(prove(bytes, { maps }).isProved).toBe(true);
    const { isProved, violations } = prove(recording, { maps, against: recording });
    expect(isProved).toBe(false);
    expect(violations.length).toBeGreaterThan(0);
  });

  it('is given the timing that the file was compiled with', () => {
    const timing = { pull: 0.6, roll: { sdMs: 14, order: 'unordered' } } as const;
    const { bytes = new Uint8Array() } = compile(recording, { maps, timing });
    expect(prove(bytes, { maps, against: recording, timing }).isProved).toBe(true);
  });
});

describe('inspect, sheet and checkMap', () => {
  it('inspects with and without maps', () => {
    const { found, texts } = inspect(recording);
    expect(Object.keys(found)).toEqual(['parts', 'harmony', 'voicing', 'register', 'balance']);
    expect(texts[0]).toContain('38 notes');
    expect(inspect(recording, { maps }).diagnostics).toEqual([]);
    expect(inspect(new Uint8Array()).diagnostics[0]?.code).toBe('not-midi');
  });

  it('draws a sheet', async () => {
    const { html, diagnostics } = await sheet(recording, { maps, title: 'Last <boat>' });
    expect(html).toContain('<title>Last &lt;boat&gt;</title>');
    expect(diagnostics.filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  it('checks a map with its examples', () => {
    expect(checkMap(map)).toMatchObject({ map: { library: 'Saltmarsh Brass' }, diagnostics: [] });
    expect(checkMap(map.replace('expect: [staccato-1', 'expect: [sustain')).diagnostics[0]?.code).toBe(
      'example-failed',
    );
  });
});

describe('a score, in place of a recording', () => {
  const score = new TextEncoder().encode(
    `<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Horns</part-name></score-part></part-list>
<part id="P1"><measure number="1"><attributes><divisions>1</divisions></attributes>
<direction><direction-type><dynamics><f/></dynamics></direction-type></direction>
<note><pitch><step>D</step><octave>3</octave></pitch><duration>4</duration></note></measure></part></score-partwise>`,
  );

  it('is compiled, proved, inspected and drawn', async () => {
    const { bytes, notes, diagnostics } = compile(score, { maps, name: 'night.musicxml' });
    expect(diagnostics).toEqual([]);
    expect(notes).toMatchObject([{ track: 2, name: 'Horns', notes: [{ pitch: 50 }] }]);
    expect(prove(bytes ?? new Uint8Array(), { maps, against: score }).isProved).toBe(true);
    expect(inspect(score).texts.join('\n')).toContain('"Horns"');
    expect((await sheet(score, { maps })).html).toContain('Horns');
  });

  it('is told of where it is wrong', () => {
    expect(compile(new TextEncoder().encode('<a>'), { maps }).diagnostics.map(({ code }) => code)).toEqual([
      'xml-syntax',
    ]);
  });
});
