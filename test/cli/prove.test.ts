import { readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { type MidiEvent, parseMidi, writeMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { keyslip, scratchFolder } from '../support/cli.js';
import { bytesOf, trackOf } from '../support/song.js';

const cwd = scratchFolder();
const map = resolve('maps/saltmarsh-horns.yaml');
const choir = resolve('maps/gull-chapel-choir.yaml');
const recording = resolve('maps/demo/last-boat.mid');
keyslip(['compile', recording, '--map', map, '-o', 'out.mid'], { cwd });

/** The compiled demo, spoilt. */
function spoilt(change: (events: MidiEvent[]) => MidiEvent[]): string {
  const data = parseMidi(readFileSync(join(cwd, 'out.mid')));
  const tracks = data.tracks.map((events, index) => (index === 1 ? change(events) : events));
  writeFileSync(join(cwd, 'spoilt.mid'), Uint8Array.from(writeMidi({ header: data.header, tracks })));
  return 'spoilt.mid';
}

const isSwitch = (event: MidiEvent) => event.type === 'noteOn' && event.noteNumber < 12;

describe('keyslip prove', () => {
  it('hears that every note sounds as meant, with and without the recording', () => {
    const against = keyslip(['prove', 'out.mid', '--map', map, '--against', recording], { cwd });
    expect([against.status, against.err]).toEqual([0, '']);
    expect(against.out).toContain('all 38 notes sound as meant');
    expect(against.out).toContain('Compared with the input');
    expect(against.out).toMatch(/Playback is right from \d+ of \d+ bars/u);
    const alone = keyslip(['prove', 'out.mid', '--map', map], { cwd });
    expect([alone.status, alone.out.includes('all 38 notes sound as meant')]).toEqual([0, true]);
  });

  it('works through channels, standard input and JSON', () => {
    keyslip(['compile', recording, '--map', choir, '-o', 'choir.mid', '--quiet'], { cwd });
    const bytes = new Uint8Array(readFileSync(join(cwd, 'choir.mid')));
    const { status, out } = keyslip(['prove', '-', '--map', choir, '--json'], { cwd, input: bytes });
    expect(status).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ proved: true, compared: false, notes: 38, violations: [] });
  });

  it('finds a switch that was dropped, with its bar and beat', () => {
    let dropped = false;
    const file = spoilt((events) =>
      events.map((event) => {
        if (dropped || !isSwitch(event)) return event;
        dropped = true;
        return { deltaTime: event.deltaTime, type: 'text', meta: true, text: '' };
      }),
    );
    const { status, out } = keyslip(['prove', file, '--map', map, '--against', recording], { cwd });
    expect(status).toBe(1);
    expect(out).toContain('[wrong-articulation]');
    expect(out).toMatch(/^ {2}1\.1 /mu);
  });

  it('finds a velocity that was changed, but only against the recording', () => {
    const file = spoilt((events) =>
      events.map((event) =>
        event.type === 'noteOn' && event.noteNumber === 57 ? { ...event, velocity: 1 } : event,
      ),
    );
    expect(keyslip(['prove', file, '--map', map, '--against', recording], { cwd })).toMatchObject({
      status: 1,
    });
    expect(keyslip(['prove', file, '--map', map], { cwd }).out).toContain('Not compared');
  });

  it('knows timing that was asked for from timing that was not', () => {
    const timing = [
      '--compensate',
      '--preroll',
      '1',
      '--joins',
      '--pull',
      '60%',
      '--roll',
      '18ms',
      '--loosen',
      '8ms',
    ];
    keyslip(['compile', recording, '--map', map, '-o', 'timed.mid', '--bare', ...timing], { cwd });
    const words = ['prove', 'timed.mid', '--map', map, '--against', recording];
    expect(keyslip([...words, ...timing], { cwd }).status).toBe(0);
    expect(keyslip(words, { cwd }).status).toBe(1);
  });

  it('names a --restate that cures playback from any bar, and it does', () => {
    // A short note on the second beat of each of eight bars: one switch, at the beginning.
    const line = Array.from({ length: 8 }, (_, bar) => ({
      tick: bar * 1920 + 480,
      end: bar * 1920 + 560,
      pitch: 50,
    }));
    writeFileSync(join(cwd, 'bars.mid'), bytesOf([trackOf(line)]));
    keyslip(['compile', 'bars.mid', '--map', map, '-o', 'once.mid'], { cwd });
    const { out } = keyslip(['prove', 'once.mid', '--map', map], { cwd });
    expect(out).toContain('Playback is right from 1 of 8 bars');
    const [, value = ''] = /--restate (\S+)/u.exec(out) ?? [];
    expect(value).toBe('1');
    keyslip(['compile', 'bars.mid', '--map', map, '--restate', value, '-o', 'restated.mid'], { cwd });
    expect(keyslip(['prove', 'restated.mid', '--map', map], { cwd }).out).toContain(
      'Playback is right from every bar',
    );
  });
});

describe('compile --prove', () => {
  it('says that the result was proved', () => {
    const { status, out } = keyslip(['compile', recording, '--map', map, '-o', 'p.mid', '--prove'], { cwd });
    expect([status, out.includes('Proved')]).toEqual([0, true]);
  });
});
