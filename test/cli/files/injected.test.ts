import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { testBank } from '../../sound/hear/support/bank.js';
import { scratchFolder } from '../../support/cli.js';
import { some } from '../../support/draws.js';
import { type FaultPlan, injectFaults, withFault } from '../../support/file-faults.js';
import { programWith } from '../../support/otherwise.js';
import { bounceOfOneReed, longTake, oneReed, reeds, reedsSketch } from '../../support/reeds.js';
import { bytesOf, trackOf } from '../../support/song.js';

// Measuring takes long and writes nothing: what one run found is what all find.
const measuredOnce = `
import { measureBounce as measure } from './measure.js?right';
let found;
export const measureBounce = (...given) => (found ??= measure(...given));
`;
const run = await programWith('sound/measure/measure', measuredOnce);
injectFaults();

const scratch = scratchFolder();
const take = bytesOf([
  trackOf(
    [100, 60, 400, 80, 500, 120].map((held, at) => ({
      tick: 480 * (at + 1),
      end: 480 * (at + 1) + held,
      pitch: 60 + at,
    })),
    [],
    'Reed',
  ),
]);
const short = bytesOf([trackOf([{ tick: 0, end: 60, pitch: 60 }], [], 'Reed')]);
const cue =
  'format: keyslip-cue/1\nsource: take.mid\noutput: out.mid\nparts:\n  - {name: Reed, track: Reed, map: reeds.yaml}\n';
const bounce = join(scratch, 'bounce.wav');
writeFileSync(bounce, bounceOfOneReed());
const switched = join(scratch, 'switched.mid');
writeFileSync(join(scratch, 'long.mid'), longTake());
writeFileSync(join(scratch, 'reeds.yaml'), reeds);
await run(['compile', join(scratch, 'long.mid'), '--map', join(scratch, 'reeds.yaml'), '-o', switched]);

/** A command, the files that it reads, and those that it writes; paths are meant from a folder of its own. */
interface Case {
  readonly words: readonly string[];
  readonly inputs: Readonly<Record<string, string | Uint8Array>>;
  /** What is there before; undefined for a new file. */
  readonly outputs: Readonly<Record<string, string | Uint8Array | undefined>>;
}

const inputs = { 'take.mid': take, 'reeds.yaml': reeds };
const cases: Readonly<Record<string, Case>> = {
  'compile with a report': {
    words: ['compile', 'take.mid', '--map', 'reeds.yaml', '-o', 'out.mid', '--report', 'report.json'],
    inputs,
    outputs: { 'out.mid': 'old', 'report.json': undefined },
  },
  'compile over two old files': {
    words: ['compile', 'take.mid', '--map', 'reeds.yaml', '-o', 'out.mid', '--report', 'report.json'],
    inputs,
    outputs: { 'out.mid': 'old', 'report.json': 'old' },
  },
  'compile in place': {
    words: ['compile', 'take.mid', '--map', 'reeds.yaml', '--in-place'],
    inputs: { 'reeds.yaml': inputs['reeds.yaml'] },
    outputs: { 'take.mid': take },
  },
  'cue with a report': {
    words: ['cue', 'night.cue.yaml', '--report', 'report.json'],
    inputs: { ...inputs, 'night.cue.yaml': cue },
    outputs: { 'out.mid': bytesOf([trackOf([])]), 'report.json': 'old' },
  },
  'sheet for a copyist': {
    words: ['sheet', 'take.mid', '--map', 'reeds.yaml', '-o', 'out.musicxml'],
    inputs,
    outputs: { 'out.musicxml': 'old' },
  },
  'init of a map and its schema': {
    words: ['init', 'new.yaml'],
    inputs: {},
    outputs: { 'new.yaml': undefined, 'map.schema.json': undefined },
  },
  'init of a cue and its schema': {
    words: ['init', '--cue', 'take.mid'],
    inputs: { 'take.mid': take },
    outputs: { 'take.cue.yaml': undefined, 'cue.schema.json': undefined },
  },
  'set, with chords': {
    words: ['set', 'chords.txt', '--to', 'take.mid', '-o', 'out.mid'],
    inputs: { 'take.mid': take, 'chords.txt': '| C | G7 |\n' },
    outputs: { 'out.mid': 'old' },
  },
  hear: {
    words: [
      'hear',
      'short.mid',
      '--map',
      'reeds.yaml',
      '--bank',
      'bank.sf2',
      '-o',
      'out.wav',
      '--format',
      '16',
    ],
    inputs: { 'short.mid': short, 'reeds.yaml': inputs['reeds.yaml'], 'bank.sf2': testBank() },
    outputs: { 'out.wav': 'old' },
  },
  'learn, from what was compiled': {
    words: ['learn', switched, '--map', 'sketch.yaml', '-o', 'learned.yaml'],
    inputs: { 'sketch.yaml': reedsSketch },
    outputs: { 'learned.yaml': 'old' },
  },
  'measure --write': {
    words: ['measure', bounce, '--map', 'reeds.yaml', '--write'],
    inputs: {},
    outputs: { 'reeds.yaml': oneReed },
  },
};

/** Runs a command in a folder of its own; what its files are then. */
async function attempt({ words, inputs: given, outputs }: Case, fault: FaultPlan) {
  const folder = mkdtempSync(join(scratch, 'case-'));
  const there = Object.entries({ ...given, ...outputs }).filter(([, content]) => content !== undefined);
  for (const [name, content] of there) writeFileSync(join(folder, name), content ?? '');
  const placed = words.map((word) =>
    /^\w+\.(cue\.)?(mid|yaml|json|musicxml|txt|wav|sf2)$/u.test(word) ? join(folder, word) : word,
  );
  const again = () => run(placed);
  const { value: ran, calls, isReached } = await withFault(fault, again);
  return { folder, ran, calls, isReached, again, files: contents(folder) };
}

const contents = (folder: string) =>
  Object.fromEntries(readdirSync(folder).map((name) => [name, readFileSync(join(folder, name), 'latin1')]));
const latin1 = (content: string | Uint8Array) => Buffer.from(content).toString('latin1');
const known = (of: Readonly<Record<string, string | Uint8Array | undefined>>) =>
  Object.fromEntries(
    Object.entries(of).flatMap(([name, content]) => (content === undefined ? [] : [[name, latin1(content)]])),
  );

/** What is done is the same for each, so that they take turns. */
const codes = ['ENOSPC', 'EIO', 'EACCES'];
const isTemporary = (name: string) => name.endsWith('.tmp');

/** Each step of a command with a fault at it, until one run has no such step. */
async function* eachStep(one: Case, fault: Omit<FaultPlan, 'at' | 'code'> = {}) {
  for (let at = 1; ; at++) {
    const tried = await attempt(one, { ...fault, at, code: codes[at % codes.length] ?? '' });
    if (!tried.isReached) {
      expect(at).toBeGreaterThan(8);
      return;
    }
    yield { ...tried, told: `step ${at} (${tried.calls[at - 1]}): ${tried.ran.err}` };
    rmSync(tried.folder, { recursive: true });
  }
}

/** What a command leaves where nothing fails; a report has paths of its folder in it. */
async function finishedBy(one: Case) {
  const { files, folder: first, ran } = await attempt(one, { code: '', at: 0 });
  expect([ran.status, Object.keys(files).sort()]).toEqual([
    0,
    Object.keys({ ...one.inputs, ...one.outputs }).sort(),
  ]);
  return (folder: string) =>
    Object.fromEntries(Object.entries(files).map(([name, text]) => [name, text.replaceAll(first, folder)]));
}

type Tried = Awaited<ReturnType<typeof attempt>> & { readonly told: string };

/** All files are old, or all are new; what could not be taken away is told, and is taken away by the next run. */
async function isOldOrNew({ files, folder, ran, told, again }: Tried, old: object, done: object) {
  const whole = Object.fromEntries(Object.entries(files).filter(([file]) => !isTemporary(file)));
  expect([told, whole]).toEqual([told, ran.status === 0 ? done : old]);
  if (!Object.keys(files).some(isTemporary)) return;
  expect(told).toContain('[left-over]');
  await again();
  expect(readdirSync(folder).filter(isTemporary)).toEqual([]);
}

/** One sentence, and no word of something that is done. */
function isToldOnce({ ran, told }: Tried) {
  expect([told, ran.status]).toEqual([told, 1]);
  expect(ran.err.match(/: error \[cannot-(read|write)\]: /gu), told).toHaveLength(1);
  // What measuring or learning found is told, whether it was written or not.
  expect(ran.out, told).not.toMatch(/^\S+ → |written| decides \d+ of /mu);
}

describe.each(some(Object.entries(cases)))('%s', (_, one) => {
  const old = known({ ...one.inputs, ...one.outputs });

  it('leaves all of its files old, or all new, at whatever step something fails', async () => {
    const finished = await finishedBy(one);
    for await (const tried of eachStep(one)) {
      await isOldOrNew(tried, old, finished(tried.folder));
      if (tried.ran.status !== 0) isToldOnce(tried);
    }
  });
});

describe('compile over two old files', () => {
  const one = cases['compile over two old files'] as Case;
  const old = known({ ...one.inputs, ...one.outputs });

  it('leaves all old, or all new, on a disk that has no second names for files', async () => {
    const finished = await finishedBy(one);
    for await (const tried of eachStep(one, { never: ['linkSync'] }))
      await isOldOrNew(tried, old, finished(tried.folder));
  });

  it('leaves each of them old or new, whole, where the disk is gone from any step on, and says so', async () => {
    const finished = await finishedBy(one);
    for await (const { ran, told, folder, files } of eachStep(one, { isLasting: true })) {
      const done = finished(folder);
      expect([told, files['out.mid'] === old['out.mid'] || files['out.mid'] === done['out.mid']]).toEqual([
        told,
        true,
      ]);
      expect([told, files['report.json'] === 'old' || files['report.json'] === done['report.json']]).toEqual([
        told,
        true,
      ]);
      // What cannot be told to have failed has not.
      if (ran.status === 0) expect([told, files]).toEqual([told, expect.objectContaining(done)]);
      else expect(told).toMatch(/: error \[cannot-(read|write)\]: /u);
      if (ran.status !== 0 && files['out.mid'] !== old['out.mid'])
        expect(told).toContain('what was there before cannot be put back');
    }
  });
});
