import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, it } from 'vitest';
import { testBank } from '../sound/hear/support/bank.js';
import { scratchFolder } from '../support/cli.js';
import { runHere } from '../support/in-process.js';
import { bytesOf, trackOf } from '../support/song.js';

const folder = scratchFolder();
const at = (name: string) => join(folder, name);

// A library that routes by channel, under two parts: in one track they would both send to channel 3.
const map = (name: string) => `format: keyslip-map/1
library: Tin Harbour
instrument: ${name}
family: brass
note-60: C4
range: [C2, C7]
articulations:
  long: {switch: {channel: 3}}
  short: {switch: {channel: 4}}
rules:
  - {when: {held: {below: 200ms}}, use: short}
  - use: long
`;
const line = (pitch: number, channel: number) => [
  { tick: 480, end: 600, pitch, channel },
  { tick: 960, end: 1900, pitch: pitch + 2, channel },
];
const cue = `format: keyslip-cue/1
source: take.mid
output: out.mid
parts:
  - {name: Horns, channel: 1, map: horns.yaml}
  - {name: Tuba, channel: 2, map: tuba.yaml, timing: {compensate: true, joins: true}}
`;

beforeAll(() => {
  const files = {
    'horns.yaml': map('Horns'),
    'tuba.yaml': map('Tuba'),
    'take.cue.yaml': cue,
    'take.mid': bytesOf([trackOf([...line(60, 0), ...line(40, 1)], [], 'All')], { format: 0 }),
    'bank.sf2': testBank(),
  };
  for (const [name, content] of Object.entries(files)) writeFileSync(at(name), content);
});

it('a cue over format 0 is compiled, proved, explained, inspected, drawn and heard part by part', async () => {
  const done = await runHere(['cue', at('take.cue.yaml'), '--prove', '--strict']);
  expect([done.status, done.err]).toEqual([0, '']);
  const proved = await runHere(['prove', at('out.mid'), '--cue', at('take.cue.yaml'), '--part', 'Tuba']);
  expect([proved.status, proved.err]).toEqual([0, '']);
  expect(proved.out).toContain('all 2 notes sound as meant');
  expect(proved.out).toContain('Track 3 "Tuba", channel 2');
  const { out: explained } = await runHere(['explain', at('take.cue.yaml'), '--json']);
  expect(JSON.parse(explained)).toMatchObject({
    parts: [
      { track: 2, name: 'Horns', channel: 1, notes: [{ articulation: 'short' }, { articulation: 'long' }] },
      { track: 3, name: 'Tuba', channel: 2, notes: [{ articulation: 'short' }, { articulation: 'long' }] },
    ],
  });
  const { out: inspected } = await runHere(['inspect', at('take.cue.yaml'), '--json']);
  expect(JSON.parse(inspected)).toMatchObject({
    balance: [{ sections: [{ name: 'Horns' }, { name: 'Tuba' }] }],
  });
  const sheet = await runHere(['sheet', at('take.cue.yaml'), '-o', at('take.html'), '--json']);
  expect(JSON.parse(sheet.out)).toMatchObject({ parts: 2, notes: 4 });
  const hear = ['hear', at('take.cue.yaml'), '--bank', at('bank.sf2'), '--part', 'Tuba'];
  const heard = await runHere([...hear, '-o', at('tuba.wav'), '--json']);
  expect(JSON.parse(heard.out)).toMatchObject({ notes: 2 });
});
