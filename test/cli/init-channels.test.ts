import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { readCue } from '../../src/cue/read/index.js';
import { keyslip, scratchFolder } from '../support/cli.js';
import { bytesOf, type Timed, trackOf } from '../support/song.js';

it('init --cue makes a part for each channel of a track of several', () => {
  const folder = scratchFolder();
  const note = (channel: number) => ({ tick: 0, end: 400, pitch: 60, channel });
  const tracks = [trackOf([note(0), note(4), note(9)], [], 'Score')];
  writeFileSync(join(folder, 'take.mid'), bytesOf(tracks, { format: 0 }));
  const { status } = keyslip(['init', '--cue', 'take.mid', 'take.cue.yaml'], { cwd: folder });
  const { out } = keyslip(['init', '--cue', 'take.mid', '-'], { cwd: folder });
  const { value } = readCue(new TextEncoder().encode(out), 'take.cue.yaml');
  expect(status).toBe(0);
  expect(value?.parts.map(({ name, track, channel }) => [name, track, channel])).toEqual([
    ['Score, channel 1', 'Score', 1],
    ['Score, channel 5', 'Score', 5],
    ['Score, channel 10', 'Score', 10],
  ]);
});

it('init --cue escapes what nobody sees or what turns a line round, and reads it back as it was', () => {
  const folder = scratchFolder();
  const name = 'Horns \u202e\u2066\u200b\u{e0041} (🎺)';
  const asBytes = Buffer.from(name).toString('latin1');
  writeFileSync(
    join(folder, 'take.mid'),
    bytesOf([trackOf([{ tick: 0, end: 400, pitch: 60 }], [], asBytes)]),
  );
  const { out } = keyslip(['init', '--cue', 'take.mid', '-'], { cwd: folder });
  expect(out).toContain('"Horns \\u202e\\u2066\\u200b\\U000e0041 (🎺)"');
  expect(out).not.toMatch(/\p{Cf}/u);
  const { value } = readCue(new TextEncoder().encode(out), 'take.cue.yaml');
  expect(value?.parts[0]?.track).toBe(name);
});

it('init --cue names channels as channel prefixes do, and each part has a map that its kind shares', () => {
  const folder = scratchFolder();
  const note = (channel: number) => ({ tick: 0, end: 400, pitch: 60, channel });
  const named = (channel: number, text: string): Timed[] => [
    { tick: 0, event: { type: 'channelPrefix', meta: true, channel } as Timed['event'] },
    { tick: 0, event: { type: 'trackName', meta: true, text } as Timed['event'] },
  ];
  const program = {
    tick: 0,
    event: { type: 'programChange', channel: 3, programNumber: 73 } as Timed['event'],
  };
  const others = [...named(0, 'Violin 1'), ...named(1, 'Violin 2'), ...named(2, 'Horn 3'), program];
  const track = trackOf([0, 1, 2, 3].map(note), others, 'All');
  writeFileSync(join(folder, 'take.mid'), bytesOf([track], { format: 0 }));
  mkdirSync(join(folder, 'maps'));
  writeFileSync(join(folder, 'maps/tin-horns.yaml'), 'format: keyslip-map/1\n');
  writeFileSync(join(folder, 'maps/gilt horns.yaml'), 'format: keyslip-map/1\n');
  writeFileSync(join(folder, 'maps/horns.cue.yaml'), 'format: keyslip-cue/1\n');
  const { out } = keyslip(['init', '--cue', 'take.mid', '-'], { cwd: folder });
  const { value } = readCue(new TextEncoder().encode(out), 'take.cue.yaml');
  expect(value?.parts.map(({ name, channel, map }) => [name, channel, map.text])).toEqual([
    ['Violin 1', 1, 'violin.yaml'],
    ['Violin 2', 2, 'violin.yaml'],
    ['Horn 3', 3, 'maps/gilt horns.yaml'],
    ['All, channel 4', 4, 'flute.yaml'],
  ]);
  expect(out).toContain('map: "maps/gilt horns.yaml" # or maps/tin-horns.yaml\n');
});
