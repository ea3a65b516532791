import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { isCue, readCue } from '../../src/cue/read/index.js';
import { codes } from '../../src/diagnostics/codes.js';
import { readMidi, type Song } from '../../src/midi/index.js';
import { inspect, musicOf } from '../../src/music/index.js';
import { keyslip, program, scratchFolder } from '../support/cli.js';
import { commitAll } from '../support/git.js';
import { readWhole } from '../support/map.js';
import { bytesOf, trackOf } from '../support/song.js';

const papers = ['README.md', 'maps/README.md'] as const;
const readme = papers.map((file) => readFileSync(file, 'utf8')).join('\n');
const scripts = Object.keys(
  (JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: Record<string, string> }).scripts,
);
const blocks = [...readme.matchAll(/```sh\n([\s\S]*?)```/gu)].flatMap(([, block = '']) => block.split('\n'));
const lines = blocks.map((line) => line.replace(/\s+#.*$/u, '').trim()).filter((line) => line !== '');
const commands = [...new Set(lines)];

function readSong(file: string): Song {
  const { value } = readMidi(readFileSync(file), file);
  if (!value) throw new Error(`${file} cannot be read`);
  return value;
}

/** A repository like a reader's: the maps of the project, and the files that the commands speak of, in one commit. */
function readersFolder(): string {
  const folder = scratchFolder();
  cpSync('maps', join(folder, 'maps'), { recursive: true });
  symlinkSync(resolve('schemas'), join(folder, 'schemas'));
  cpSync('maps/saltmarsh-horns.yaml', join(folder, 'horns.yaml'));
  cpSync('maps/lantern-street-strings.yaml', join(folder, 'violas.yaml'));
  const line = (pitch: number) => [0, 480, 960].map((tick) => ({ tick, end: tick + 200, pitch }));
  writeFileSync(
    join(folder, 'cue.mid'),
    bytesOf([trackOf(line(50), [], 'Horns'), trackOf(line(60), [], 'Violas')]),
  );
  for (const made of ['takes', 'switched']) mkdirSync(join(folder, made));
  for (const take of ['one', 'two'])
    writeFileSync(join(folder, `takes/${take}.mid`), bytesOf([trackOf(line(50))]));
  commitAll(folder);
  return folder;
}

/** What goes on until it is ended is shown by its page. */
async function answersAt(words: readonly string[], cwd: string): Promise<void> {
  const child = spawn(process.execPath, [program, ...words], { cwd, stdio: ['ignore', 'pipe', 'inherit'] });
  try {
    const [address] = (await once(child.stdout, 'data')) as [Buffer];
    expect((await fetch(String(address).trim())).status).toBe(200);
  } finally {
    child.kill('SIGINT');
  }
}

describe('README and handbook', () => {
  const folder = readersFolder();

  it('shows commands', () => {
    expect(commands.length).toBeGreaterThan(8);
  });

  for (const command of commands)
    it(`runs: ${command}`, () => {
      const [name = '', ...words] = command.split(' ');
      if (name !== 'keyslip') {
        // These are run by .ci/run as they stand, in a fresh clone; running them inside a test would start the tests again.
        const ci = readFileSync('.ci/run', 'utf8');
        const named = [...command.matchAll(/npm (?:run )?([\w:]+)/gu)]
          .map(([, script = '']) => script)
          .filter((script) => script !== 'ci' && script !== 'link');
        expect(named.every((script) => scripts.includes(script) || script === 'test')).toBe(true);
        if (!command.includes('link')) expect(ci).toContain('npm ci && npm test');
        return;
      }
      if (words[0] === 'desk') return answersAt(words, folder);
      const redirected = words.indexOf('>');
      const { status, out, err } = keyslip(redirected < 0 ? words : words.slice(0, redirected), {
        cwd: folder,
      });
      expect({ status, err }).toEqual({ status: 0, err: '' });
      expect(out.length).toBeGreaterThan(0);
    });

  it('have outputs, keys and codes as the program gives them', () => {
    const { status, stderr } = spawnSync(process.execPath, ['.config/papers.mjs', '--check'], {
      encoding: 'utf8',
    });
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    for (const made of ['map keys', 'conditions', 'cue keys'])
      expect(readme).toContain(`<!-- made: ${made} -->`);
    expect(readme).toContain('<!-- run: keyslip');
  });

  it('begin with what a composer reads: the README has at most 200 lines', () => {
    expect(readFileSync('README.md', 'utf8').split('\n').length).toBeLessThanOrEqual(200);
  });

  it('name every inspection, and each has its test', () => {
    const music = musicOf(readSong('maps/demo/last-boat.mid'), [], 'found');
    for (const { name } of inspect(music)) {
      expect(readme).toContain(`| \`${name}\` |`);
      const test = name === 'parts' ? 'mechanical' : name;
      expect(existsSync(`test/music/inspections/${test}.test.ts`)).toBe(true);
    }
  });

  const shownYaml = [...readme.matchAll(/```yaml\n([\s\S]*?)```/gu)].map(([, yaml = '']) => yaml);
  const isOfCue = (yaml: string) => isCue(new TextEncoder().encode(yaml));

  it('shows cues that are in order', () => {
    const cues = shownYaml.filter(isOfCue);
    expect(cues.length).toBeGreaterThan(0);
    for (const yaml of cues)
      expect(readCue(new TextEncoder().encode(yaml), 'shown.yaml').diagnostics).toEqual([]);
  });

  it('shows maps that are in order', () => {
    const maps = shownYaml.filter((yaml) => !isOfCue(yaml));
    expect(maps.length).toBeGreaterThan(0);
    for (const yaml of maps)
      expect(readWhole(yaml).library).toBe((parse(yaml) as { library: string }).library);
  });

  it('lists every diagnostic code, with its meaning, in the order of the source', () => {
    const table = readFileSync('src/diagnostics/README.md', 'utf8');
    const rows = Object.entries(codes).map(
      ([code, { severity, means }]) => `| \`${code}\` | ${severity} | ${means} |`,
    );
    expect(table.split('\n').filter((line) => line.startsWith('| `'))).toEqual(rows);
  });

  it('shows pictures that are there, and says in words what they show', () => {
    const pictures = [...readme.matchAll(/!\[(.*?)\]\((.+?)\)/gu)];
    expect(pictures.length).toBeGreaterThan(0);
    for (const [, words = '', path = ''] of pictures) {
      expect(words.length).toBeGreaterThan(40);
      // The signature of PNG (ISO 15948, 5.2).
      expect([...readFileSync(path).subarray(0, 4)]).toEqual([0x89, 0x50, 0x4e, 0x47]);
    }
  });

  it('names every map of the project', () => {
    for (const name of readdirSync('maps').filter((file) => file.endsWith('.yaml')))
      expect(readme).toContain(`\`${name}\``);
  });
});

describe('a repository of maps, as the handbook has it', () => {
  const folder = readersFolder();
  const edit = (name: string, from: string, to: string) => {
    const text = readFileSync(join(folder, name), 'utf8');
    expect(text).toContain(from);
    writeFileSync(join(folder, name), text.replace(from, to));
  };

  it('is told of changes in these words', () => {
    edit('horns.yaml', 'below: 160ms', 'below: 110ms');
    const [, shown = ''] = /<!-- compared -->\n```\n([\s\S]*?)```/u.exec(readme) ?? [];
    const words = 'compare HEAD:horns.yaml horns.yaml maps/demo/last-boat.mid';
    expect(commands).toContain(`keyslip ${words}`);
    expect(keyslip(words.split(' '), { cwd: folder })).toMatchObject({ status: 1, err: '', out: shown });
  });
});

describe('the tests', () => {
  it('have for every diagnostic code the bad input that causes it', () => {
    const files = readdirSync('test', { recursive: true, encoding: 'utf8' }).filter(
      (name) => name.endsWith('.test.ts') && !name.includes('docs/'),
    );
    const text = files.map((name) => readFileSync(join('test', name), 'utf8')).join('\n');
    const missing = Object.keys(codes).filter(
      (code) => !text.includes(`'${code}'`) && !text.includes(`[${code}]`),
    );
    expect(missing).toEqual([]);
  });
});
