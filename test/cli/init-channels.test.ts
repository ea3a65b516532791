import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { readCue } from '../../src/cue/read/index.js';
import { keyslip, scratchFolder } from '../support/cli.js';
import { bytesOf, trackOf } from '../support/song.js';

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
