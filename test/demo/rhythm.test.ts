import { execFileSync } from 'node:child_process';
import { cpSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import tonejs from '@tonejs/midi';
import { describe, expect, it } from 'vitest';
import { keyslip, scratchFolder } from '../support/cli.js';
import { runHere } from '../support/in-process.js';
import { demoRhythm } from './rhythm.js';

const strokes = (bytes: Uint8Array) =>
  new tonejs.Midi(bytes).tracks
    .filter(({ notes }) => notes.length > 0)
    .map(({ name, notes }) => ({ name, notes: notes.map(({ ticks, midi }) => [ticks, midi] as const) }));

describe('the demo rhythm', () => {
  it('is what its score says', () => {
    expect(new Uint8Array(readFileSync('maps/demo/gangway.mid'))).toEqual(demoRhythm());
  });

  it('comes with what is made of it, so that all maps and cues of a fresh clone are in order', async () => {
    const tracked = execFileSync('git', ['ls-files', 'maps'], { encoding: 'utf8' });
    expect(tracked.split('\n')).toContain('maps/demo/gangway.parts.mid');
    const { status, out, err } = await runHere(['check', 'maps']);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toContain('maps/demo/gangway.cue.yaml: in order');
  });
});

describe('from a sung rhythm and four chord symbols', () => {
  const folder = scratchFolder();
  cpSync('maps/demo', folder, { recursive: true });
  const run = (words: string) => {
    const { status, err } = keyslip(words.split(' '), { cwd: folder });
    expect({ status, err }).toEqual({ status: 0, err: '' });
  };
  const file = (name: string) => new Uint8Array(readFileSync(join(folder, name)));

  it('to a compiled cue of four parts it takes three commands', () => {
    // The commands as the cue's own head has them.
    const head = readFileSync('maps/demo/gangway.cue.yaml', 'utf8').replaceAll('maps/demo/', '');
    const commands = [...head.matchAll(/^# {3}keyslip (.+)$/gmu)].map(([, words = '']) => words);
    expect(commands.map((words) => words.split(' ')[0])).toEqual(['set', 'voice', 'cue']);
    for (const words of commands) run(words);
    expect(file('gangway.parts.mid')).toEqual(new Uint8Array(readFileSync('maps/demo/gangway.parts.mid')));
    const [drum] = strokes(file('gangway.mid'));
    const places = drum?.notes.map(([tick]) => tick);
    const parts = strokes(file('gangway.parts.mid'));
    expect(parts.map(({ name }) => name)).toEqual(['Violins', 'Trumpets', 'Horns 1 and 3', 'Horns 2 and 4']);
    for (const { notes } of parts) expect(notes.map(([tick]) => tick)).toEqual(places);
    // By hand: Dm (D F A), Gm over B♭ (B♭ D G), C7 (C E G B♭), F (F A C). The last stroke of bar 2 comes ahead of bar 3,
    // which has none on its first beat, and so has C7 already.
    const chords = [
      [2, 5, 9],
      [7, 10, 2],
      [0, 4, 7, 10],
      [5, 9, 0],
    ];
    const roots = [2, 10, 0, 5];
    places?.forEach((tick, stroke) => {
      const bar = stroke === 7 ? 2 : Math.floor((tick + 48) / 1920);
      const sounding = parts.map(({ notes }) => notes[stroke]?.[1] ?? 0);
      expect(sounding.every((pitch) => chords[bar]?.includes(pitch % 12))).toBe(true);
      expect(Math.min(...sounding) % 12).toBe(roots[bar]);
    });
    // Every part in the range of its map: G3–E7, E3–C6, F♯1–F5.
    const ranges = [
      [55, 100],
      [52, 84],
      [30, 77],
      [30, 77],
    ] as const;
    parts.forEach(({ notes }, index) => {
      const [low = 0, high = 0] = ranges[index] ?? [];
      for (const [, pitch] of notes) expect(pitch >= low && pitch <= high).toBe(true);
    });
    run('prove gangway.switched.mid --map Trumpets=libraries/harbour-light-trumpets.yaml');
  });

  it('the voiced sketch has no remark upon its voicing', () => {
    const { out } = keyslip(['inspect', 'gangway.parts.mid'], { cwd: folder });
    const [, voicing = ''] = /Voicing of ([\s\S]*?)(?:\n\n|$)/u.exec(out) ?? [];
    expect(voicing).not.toBe('');
    expect(voicing.split('\n').slice(1)).toEqual([]);
  });
});
