import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { proofOf } from '../../src/api/proof.js';
import { run } from '../../src/cli/program.js';
import { partsOf } from '../../src/compile/analyse/index.js';
import { runExamples } from '../../src/compile/examples.js';
import { compile } from '../../src/compile/index.js';
import { compileCue, mapsOf } from '../../src/cue/index.js';
import { readCue } from '../../src/cue/read/index.js';
import { readMidi } from '../../src/midi/read/index.js';
import { asPlayed } from '../../src/timing/options.js';
import { generator, mutateBytes, mutateText, pick, randomCommand } from './mutate.js';
import { clean, mapFrom, readFrom, refused, type Seeds, shown } from './outcome.js';
import { sheetCase } from './sheet.js';
import { timingCase } from './timing.js';

const demo = 'maps/demo';

export const kinds = ['midi', 'map', 'command', 'cue', 'sheet', 'timing', 'resets'] as const;
export type Kind = (typeof kinds)[number];

export function loadSeeds(midiFiles: readonly string[]): Seeds {
  const maps = ['maps', join(demo, 'libraries')].flatMap((folder) =>
    readdirSync(folder)
      .filter((name) => name.endsWith('.yaml'))
      .map((name) => join(folder, name)),
  );
  return {
    midi: midiFiles.map((file) => new Uint8Array(readFileSync(file))),
    maps: maps.map((path) => readFileSync(path, 'utf8')),
  };
}

/** Runs one case; throws where something happens that must not. Returns a word on how it ended. */
export async function runCase(kind: Kind, number: number, seeds: Seeds): Promise<string> {
  const random = generator(number * 2_654_435_761 + kinds.indexOf(kind));
  if (kind === 'midi') return midiCase(seeds, random);
  if (kind === 'cue') return cueCase(random);
  if (kind === 'timing' || kind === 'resets') return timingCase(seeds, random, kind === 'resets');
  if (kind === 'sheet') return sheetCase(seeds, random);
  return kind === 'map' ? mapCase(seeds, random) : commandCase(seeds, random);
}

function midiCase(seeds: Seeds, random: () => number): string {
  const bytes = mutateBytes(pick(random, seeds.midi), pick(random, seeds.midi), random);
  const { value: song, diagnostics } = readMidi(bytes, 'fuzz.mid');
  shown(diagnostics);
  if (!song) return refused(diagnostics);
  const map = mapFrom(pick(random, seeds.maps));
  const timing =
    random() < 0.3 ? { ...asPlayed, compensate: true, joins: true, pull: 0.6, loosenMs: 8 } : undefined;
  const jobs = song.tracks
    .flatMap(partsOf)
    .slice(0, 3)
    .map((part) => ({ part, map, ...(timing ? { timing } : {}) }));
  const compiled = compile(song, jobs);
  shown(compiled.diagnostics);
  if (!compiled.value) return refused(compiled.diagnostics);
  const again = readMidi(compiled.value.bytes, 'out.mid');
  if (!again.value) throw new Error(`the output cannot be read: ${again.diagnostics[0]?.message}`);
  const [violation] = proofOf(again.value, song, compiled.value, true).violations;
  if (violation)
    throw new Error(`not proved: ${violation.kind} at tick ${violation.tick}: ${violation.message}`);
  return 'compiled and proved';
}

function mapCase(seeds: Seeds, random: () => number): string {
  const text = mutateText(pick(random, seeds.maps), random);
  const { value: map, diagnostics } = readFrom(text);
  shown(diagnostics);
  if (!map) return refused(diagnostics);
  shown(runExamples(map));
  const { value: song } = readMidi(pick(random, seeds.midi), 'seed.mid');
  if (!song) throw new Error('a seed cannot be read');
  const jobs = song.tracks
    .flatMap(partsOf)
    .slice(0, 1)
    .map((part) => ({ part, map }));
  const compiled = compile(song, jobs);
  shown(compiled.diagnostics);
  if (compiled.value) readMidi(compiled.value.bytes, 'out.mid');
  return 'accepted';
}

/** The demo cue, its text or its source changed. */
function cueCase(random: () => number): string {
  const good = readFileSync(join(demo, 'skerry-point.cue.yaml'), 'utf8');
  const source = new Uint8Array(readFileSync(join(demo, 'skerry-point.mid')));
  const isOfText = random() < 0.6;
  const text = isOfText ? mutateText(good, random) : good;
  const { value: cue, diagnostics } = readCue(new TextEncoder().encode(text), 'fuzz.cue.yaml');
  shown(diagnostics);
  if (!cue) return refused(diagnostics);
  const { value: song } = readMidi(isOfText ? source : mutateBytes(source, source, random), 'fuzz.mid');
  if (!song) return 'source refused';
  const libraries = readdirSync(join(demo, 'libraries')).map((name) => `libraries/${name}`);
  const maps = new Map(libraries.map((path) => [path, mapFrom(readFileSync(join(demo, path), 'utf8'))]));
  if (mapsOf(cue).some((path) => !maps.has(path.text))) return 'another map';
  const compiled = compileCue(cue, { song, maps });
  shown(compiled.diagnostics);
  if (!compiled.value) return refused(compiled.diagnostics);
  const again = readMidi(compiled.value.bytes, 'out.mid');
  if (!again.value) throw new Error(`the output cannot be read: ${again.diagnostics[0]?.message}`);
  const [violation] = proofOf(again.value, compiled.value.planned.song, compiled.value, true).violations;
  if (violation)
    throw new Error(`not proved: ${violation.kind} at tick ${violation.tick}: ${violation.message}`);
  return 'compiled and proved';
}

async function commandCase(seeds: Seeds, random: () => number): Promise<string> {
  const folder = join(tmpdir(), `keyslip-fuzz-${process.pid}`);
  mkdirSync(folder, { recursive: true });
  const [midi] = seeds.midi;
  const [map] = seeds.maps;
  writeFileSync(join(folder, 'in.mid'), midi ?? '');
  writeFileSync(join(folder, 'map.yaml'), map ?? '');
  const before = process.cwd();
  process.chdir(folder);
  let text = '';
  const io = {
    stdin: async () => midi ?? new Uint8Array(),
    out: () => {},
    err: (more: string) => {
      text += more;
    },
    color: false,
  };
  try {
    const status = await run(randomCommand(random), io);
    if (![0, 1, 2].includes(status)) throw new Error(`exit status ${status}`);
    clean(text);
    if (readdirSync(folder).some((name) => name.endsWith('.tmp')))
      throw new Error('a temporary file was left');
    return `status ${status}`;
  } finally {
    process.chdir(before);
    rmSync(folder, { recursive: true, force: true });
  }
}
