import { cpSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type MidiEvent, parseMidi, writeMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { keyslip, scratchFolder } from '../support/cli.js';
import { bytesOf, trackOf } from '../support/song.js';

const cwd = scratchFolder();
cpSync('maps', join(cwd, 'maps'), { recursive: true });
const run = (...words: readonly string[]) => keyslip(words, { cwd });
const text = (name: string) => readFileSync(join(cwd, name), 'utf8');
const recording = 'maps/demo/last-boat.mid';
const map = ['--map', 'maps/saltmarsh-horns.yaml'];
const cue = 'maps/demo/skerry-point.cue.yaml';

/** What a page tells of its notes: an array for each part, of an array for each note. */
function told(page: string): readonly (readonly (readonly string[])[])[] {
  const [, json = '[]'] = /<script type="application\/json" id="notes">(.*?)<\/script>/u.exec(page) ?? [];
  return JSON.parse(json) as readonly (readonly (readonly string[])[])[];
}

describe('keyslip sheet', () => {
  it('writes a cue as a page, and the same bytes every time', () => {
    const { status, out, err } = run('sheet', cue, '-o', 'a.html');
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toContain('5 parts, 124 notes');
    run('sheet', cue, '-o', 'b.html');
    expect(text('a.html')).toBe(text('b.html'));
    expect(run('sheet', cue, '-o', '-').out).toBe(text('a.html'));
    expect(text('a.html')).not.toMatch(/(src|href)="(?!#)/u);
    expect(text('a.html')).not.toMatch(/url\(|@import|https?:/u);
  });

  it('tells of every note what explain tells', () => {
    expect(run('sheet', recording, ...map, '-o', 'take.html').status).toBe(0);
    const explained = run('explain', recording, ...map)
      .out.trim()
      .split('\n')
      .slice(1);
    const [notes = []] = told(text('take.html'));
    expect(notes).toHaveLength(explained.length);
    notes.forEach(([, articulation = '?', why = '?'], index) => {
      expect(explained[index]).toContain(`  ${articulation} `);
      expect(explained[index]).toContain(why);
    });
  });

  it('tells of a compiled file what it tells of the recording', () => {
    run('compile', recording, ...map, '-o', 'switched.mid');
    const { status, err, out } = run('sheet', 'switched.mid', ...map, '-o', 'switched.html');
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(told(text('switched.html'))).toEqual(told(text('take.html')));
    const counts = / {2}1 part.*\n/u;
    expect(counts.exec(out)?.[0]).toBe(
      counts.exec(run('sheet', recording, ...map, '-o', 'take.html').out)?.[0],
    );
  });

  it('says where a compiled file sounds otherwise than its map means', () => {
    const { header, tracks } = parseMidi(readFileSync(join(cwd, 'switched.mid')));
    let switches = 0;
    const isSecondSwitch = (event: MidiEvent) => {
      if (event.type === 'noteOn' && event.noteNumber < 24) switches += 1;
      return event.type === 'noteOn' && event.noteNumber < 24 && switches === 2;
    };
    const otherKey = (event: MidiEvent) => (event.type === 'noteOn' && event.noteNumber === 1 ? 2 : 1);
    const spoiled = tracks.map((events) =>
      events.map((event) => (isSecondSwitch(event) ? { ...event, noteNumber: otherKey(event) } : event)),
    );
    writeFileSync(join(cwd, 'spoiled.mid'), Uint8Array.from(writeMidi({ header, tracks: spoiled })));
    const { status, err } = run('sheet', 'spoiled.mid', ...map, '-o', 'spoiled.html');
    expect(status).toBe(0);
    expect(err).toContain('warning [heard-otherwise]');
    expect(text('spoiled.html')).toContain('▲1');
    expect(run('sheet', 'spoiled.mid', ...map, '-o', 'strict.html', '--strict').status).toBe(1);
    expect(existsSync(join(cwd, 'strict.html'))).toBe(false);
  });

  it('gives counts as JSON', () => {
    const { out } = run('sheet', recording, ...map, '-o', 'take.html', '--json');
    expect(JSON.parse(out)).toMatchObject({ input: recording, output: 'take.html', parts: 1, notes: 38 });
    expect(run('sheet', recording, ...map, '-o', 'take.html', '--quiet')).toMatchObject({ out: '', err: '' });
  });

  it('writes a file without notes to remark on, and one whose part is silent for long', () => {
    const late = [{ tick: 480 * 4 * 40, end: 480 * 4 * 40 + 100, pitch: 50 }];
    writeFileSync(join(cwd, 'late.mid'), bytesOf([trackOf(late, [], 'Horns')]));
    expect(run('sheet', 'late.mid', ...map, '-o', 'late.html').out).toContain('1 note, ');
  });
});

describe('a sheet that cannot be', () => {
  const usage = (...words: readonly string[]) => {
    const { status, err } = run('sheet', ...words);
    expect(status).toBe(2);
    return err;
  };

  it('is told of the command line', () => {
    expect(usage(recording, ...map)).toContain('say where the sheet goes');
    expect(usage(recording, '-o', 'x.html')).toContain('say which library plays it');
    expect(usage(cue, ...map, '-o', 'x.html')).toContain('a cue names its maps itself');
    expect(usage(cue, '--track', 'Horns', '-o', 'x.html')).toContain('a cue names its tracks itself');
    expect(usage(cue, '--joins', '-o', 'x.html')).toContain('a cue has its timing in itself');
    expect(usage(recording, ...map, '-o', recording)).toContain('would overwrite its own input');
    expect(usage(recording, ...map, '-o', 'maps/saltmarsh-horns.yaml')).toContain('overwrite its own input');
  });

  it('never takes the place of what a cue is made from', () => {
    const { status, err } = run('sheet', cue, '-o', 'maps/demo/skerry-point.mid');
    expect(status).toBe(1);
    expect(err).toContain('error [output-is-input]');
    expect(readFileSync(join(cwd, 'maps/demo/skerry-point.mid'))).toEqual(
      readFileSync('maps/demo/skerry-point.mid'),
    );
  });

  it('needs bars, and tracks that sound together: no-sheet', () => {
    const line = [0, 480].map((tick) => ({ tick, end: tick + 200, pitch: 50 }));
    const smpte = { framesPerSecond: 25, ticksPerFrame: 40 };
    writeFileSync(join(cwd, 'frames.mid'), bytesOf([trackOf(line)], { smpte }));
    const two = [trackOf(line, [], 'A'), trackOf(line, [], 'B')];
    writeFileSync(join(cwd, 'pieces.mid'), bytesOf(two, { format: 2 }));
    const plainMap = ['--map', 'maps/general-midi-strings.yaml'];
    expect(run('sheet', 'frames.mid', ...plainMap, '-o', 'x.html').err).toContain('error [no-sheet]');
    const both = ['--map', 'A=maps/general-midi-strings.yaml', '--map', 'B=maps/general-midi-strings.yaml'];
    expect(run('sheet', 'pieces.mid', ...both, '-o', 'x.html').err).toContain('[no-sheet]');
    expect(run('sheet', 'pieces.mid', ...plainMap, '--track', 'B', '-o', 'x.html').status).toBe(0);
  });

  it('has no room for more bars than a page can show', () => {
    // Quarters at the coarsest division, each five bars of 1/4 from the next: all of them would be written out.
    const many = Array.from({ length: 51_000 }, (_, index) => ({
      tick: index * 8,
      end: index * 8 + 1,
      pitch: 50,
    }));
    writeFileSync(join(cwd, 'many.mid'), bytesOf([trackOf(many)], { ppq: 1 }));
    const { err } = run('sheet', 'many.mid', '--map', 'maps/general-midi-strings.yaml', '-o', 'x.html');
    expect(err).toContain('a sheet has room for 100000');
  });

  it('costs what its notes cost, however many bars there are', () => {
    // The longest delta of the format, 0FFFFFFF, at the coarsest division: 67 million bars.
    const line = [0, 480].map((tick) => ({ tick, end: tick + 1, pitch: 50 }));
    const endless = [...line, { tick: 0x0fffffff, end: 0x0fffffff + 1, pitch: 50 }];
    writeFileSync(join(cwd, 'endless.mid'), bytesOf([trackOf(endless)], { ppq: 1 }));
    const plainMap = ['--map', 'maps/general-midi-strings.yaml'];
    expect(run('sheet', 'endless.mid', ...plainMap, '-o', 'x.html').out).toContain('67108864 bars');
    expect(text('x.html').length).toBeLessThan(100_000);
  });

  it('leaves the sheet that was there', () => {
    writeFileSync(join(cwd, 'old.html'), 'as it was');
    writeFileSync(join(cwd, 'bad.yaml'), 'format: keyslip-map/1\n');
    expect(run('sheet', recording, '--map', 'bad.yaml', '-o', 'old.html').status).toBe(1);
    expect(run('sheet', 'nothing.mid', ...map, '-o', 'old.html').err).toContain('[cannot-read]');
    expect(text('old.html')).toBe('as it was');
    expect(run('sheet', recording, ...map, '-o', 'no/folder.html').err).toContain('[cannot-write]');
  });
});
