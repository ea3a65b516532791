import { cpSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { partsOf, readMidi } from '../../src/midi/index.js';
import { soundingNotes } from '../../src/music/index.js';
import { keyslip, scratchFolder } from '../support/cli.js';
import { bytesOf, trackOf } from '../support/song.js';

const cwd = scratchFolder();
cpSync(resolve('maps/demo/libraries'), join(cwd, 'libraries'), { recursive: true });
const put = (name: string, content: Uint8Array | string) => {
  writeFileSync(join(cwd, name), content);
  return name;
};
/** C, F, G7, C under a tune E5 F5 F5 E5, a bar each. */
const chords = [
  [48, 55, 60, 64, 76],
  [41, 57, 60, 65, 77],
  [43, 59, 62, 65, 77],
  [48, 55, 60, 64, 76],
];
const sketch = put(
  'sketch.mid',
  bytesOf([
    trackOf(
      chords.flatMap((pitches, bar) =>
        pitches.map((pitch) => ({ tick: bar * 1920, end: bar * 1920 + 1800, pitch })),
      ),
      [],
      'Piano',
    ),
  ]),
);
const part = (name: string, map: string, more = '') =>
  `  - {name: ${name}, track: ${name} track, map: libraries/${map}.yaml${more}}\n`;
const cueOf = (parts: string) =>
  `format: keyslip-cue/1\nsource: voiced.mid\noutput: out.mid\nparts:\n${parts}`;
const cue = put(
  'night.cue.yaml',
  cueOf(
    part('Violins', 'drift-line-strings') +
      part('Trumpets', 'harbour-light-trumpets') +
      part('Drums', 'bell-buoy-drums') +
      part('Horns', 'harbour-light-horns'),
  ),
);
const run = (...words: string[]) => keyslip(['voice', ...words], { cwd });

/** Pitches by the names of tracks. */
function lines(name: string): Readonly<Record<string, readonly number[]>> {
  const { value: song } = readMidi(new Uint8Array(readFileSync(join(cwd, name))), name);
  if (!song) throw new Error('not read');
  return Object.fromEntries(
    song.tracks
      .flatMap(partsOf)
      .map((one) => [one.trackName, soundingNotes(song, [one]).map(({ pitch }) => pitch)]),
  );
}

describe('keyslip voice', () => {
  it("writes a line for each pitched part, on the tracks that the cue looks for; the cue's source may be made so", () => {
    const { status, out, err } = run(sketch, '--parts', cue, '-o', 'voiced.mid');
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toBe(
      'sketch.mid → voiced.mid\n  "Violins track": 4 notes\n  "Trumpets track": 4 notes\n  "Horns track": 4 notes\n',
    );
    const voiced = lines('voiced.mid');
    // The tune on top as it is written; the bass of each chord at the bottom.
    expect(voiced['Violins track']).toEqual([76, 77, 77, 76]);
    expect(voiced['Horns track']?.map((pitch) => pitch % 12)).toEqual([0, 5, 7, 0]);
  });

  it('puts the tune where it is wanted, in close position, and lets it be', () => {
    expect(run(sketch, '--parts', cue, '-o', 'low.mid', '--tune', 'Trumpets', '--crossing').status).toBe(0);
    expect(lines('low.mid')['Trumpets track']?.map((pitch) => pitch % 12)).toEqual([4, 5, 5, 4]);
    expect(
      run(sketch, '--parts', cue, '-o', 'close.mid', '--position', 'close', '--tune', 'none').status,
    ).toBe(0);
    const close = lines('close.mid');
    close['Violins track']?.forEach((pitch, index) => {
      expect(pitch - (close['Trumpets track']?.[index] ?? 0)).toBeLessThanOrEqual(12);
    });
  });

  it('divides a section by its players where that is asked for', () => {
    const one = put('strings.cue.yaml', cueOf(part('Violins', 'drift-line-strings', ', players: 8')));
    const whole = run(sketch, '--parts', one, '-o', 'whole.mid', '--tune', 'none', '--json');
    const divided = run(sketch, '--parts', one, '-o', 'divided.mid', '--tune', 'none', '--divisi', '--json');
    const count = ({ out }: typeof whole) =>
      (JSON.parse(out) as { tracks: readonly { notes: number }[] }).tracks[0]?.notes ?? 0;
    expect(count(whole)).toBe(4);
    expect(count(divided)).toBeGreaterThan(11);
  });

  it('tells what is wrong with files and maps, and writes nothing', () => {
    const lost = put('lost.cue.yaml', cueOf(part('Violins', 'no-such-map')));
    const { status, err } = run(sketch, '--parts', lost, '-o', 'none.mid');
    expect(status).toBe(1);
    expect(err).toContain('[cannot-read]');
    put('silent.mid', bytesOf([trackOf([], [], 'Piano')]));
    expect(run('silent.mid', '--parts', cue, '-o', 'none.mid').err).toContain('[no-chords]');
    const drums = put('drums.cue.yaml', cueOf(part('Drums', 'bell-buoy-drums')));
    expect(run(sketch, '--parts', drums, '-o', 'none.mid').err).toContain('drums.cue.yaml: error [no-parts]');
    const twice = put(
      'twice.cue.yaml',
      cueOf(
        '  - {name: A, track: Same, channel: 1, map: libraries/drift-line-strings.yaml}\n' +
          '  - {name: B, track: Same, channel: 2, map: libraries/drift-line-strings.yaml}\n',
      ),
    );
    expect(run(sketch, '--parts', twice, '-o', 'none.mid').err).toContain('[same-part]');
    expect(existsSync(join(cwd, 'none.mid'))).toBe(false);
  });

  it.each([
    [[sketch, '--parts', cue], 'say where the result goes'],
    [[sketch, '--parts', cue, '-o', sketch], 'would overwrite sketch.mid'],
    [[sketch, '--parts', cue, '-o', cue], 'would overwrite night.cue.yaml'],
    [
      [sketch, '--parts', cue, '-o', 'libraries/bell-buoy-drums.yaml'],
      'would overwrite libraries/bell-buoy-drums',
    ],
    [[sketch, '--parts', cue, '-o', 'x.mid', '--tune', 'Trumpet'], 'did you mean "Trumpets"?'],
    [[sketch, '--parts', cue, '-o', 'x.mid', '--position', 'wide'], 'open, close'],
  ])('refuses the command line %j', (words, says) => {
    const { status, err } = run(...words);
    expect(status).toBe(2);
    expect(err).toContain(says);
  });
});
