import { spawn } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { program, scratchFolder } from '../../support/cli.js';
import { demoIn, type OpenDesk, openDesk } from './desk.js';

const folder = scratchFolder();
const cue = demoIn(folder);
const horns = join(folder, 'libraries/harbour-light-horns.yaml');
const hornsText = readFileSync(horns, 'utf8');
const cueText = readFileSync(cue, 'utf8');
const short = 'libraries/harbour-light-horns.yaml#rules.2.when.held.below';
const level = 'skerry-point.cue.yaml#parts.0.level';

let desk: OpenDesk;
beforeAll(async () => {
  desk = await openDesk(cue);
  await desk.until(({ revision }) => revision === 1);
});
afterAll(() => desk.end());

const revision = () => desk.states.at(-1)?.revision ?? 0;

describe('keyslip desk', () => {
  it('prints its address alone, and tells of each compile in a line', () => {
    expect(desk.said.out).toBe(`${desk.address}\n`);
    expect(desk.said.err).toMatch(/^Done in [^\n]+\. Watching 7 files for changes; Ctrl\+C ends it\.\n$/u);
  });

  it('serves the sheet as keyslip sheet makes it', async () => {
    const { runHere } = await import('../../support/in-process.js');
    const out = join(folder, 'plain.html');
    await runHere(['sheet', cue, '-o', out]);
    const served = await fetch(`${desk.address}sheet/${desk.states.at(-1)?.sheet}`);
    expect(await served.text()).toBe(readFileSync(out, 'utf8'));
  });

  it('has the bounds of each map with who is played by it, and the level of each part', () => {
    const { bounds, levels } = desk.states.at(-1) ?? { bounds: [], levels: [] };
    expect(bounds.map(({ file, parts }) => [file, parts])).toEqual([
      ['libraries/harbour-light-horns.yaml', ['Horns']],
      ['libraries/kelp-row-brass.yaml', ['Horns – bite']],
      ['libraries/harbour-light-trumpets.yaml', ['Trumpets']],
      ['libraries/drift-line-strings.yaml', ['Violins, upper desks', 'Violins, lower desks']],
      ...bounds.slice(4).map(({ file, parts }) => [file, parts]),
    ]);
    expect(levels.map(({ words, value }) => `${words} ${value}`).slice(0, 2)).toEqual([
      'Horns: level -4',
      'Trumpets: level -6',
    ]);
  });

  it('says which notes a moved bound changes, and writes nothing', async () => {
    const { changes, problems, refused } = await desk.moved(revision(), { [short]: '900' });
    expect({ problems, refused }).toEqual({ problems: [], refused: [] });
    expect(changes.decided).toBeGreaterThan(0);
    const [first] = changes.list;
    expect(first).toMatchObject({ part: 'Horns', why: expect.stringContaining('below 900ms') });
    expect(first?.said).toMatch(/→ short: \d+ notes?$/u);
    const sheet = await (await fetch(`${desk.address}sheet/${desk.states.at(-1)?.sheet}`)).text();
    expect(first?.notes.length).toBeGreaterThan(0);
    // The names of notes are those that the sheet has, of notes that are not short there.
    for (const note of first?.notes ?? [])
      expect(sheet).toMatch(
        new RegExp(`data-note="${note}"[^>]* aria-label="Horns, [^"]*, (?!short)[a-z-]+"`, 'u'),
      );
    expect(readFileSync(horns, 'utf8')).toBe(hornsText);
  });

  it('a bound that stays where it is changes nothing', async () => {
    expect((await desk.moved(revision(), { [short]: '260' })).changes.list).toEqual([]);
    expect((await desk.moved(revision(), {})).changes.list).toEqual([]);
  });

  it('a level changes what is sent, and no articulation', async () => {
    const { changes } = await desk.moved(revision(), { [level]: '-10' });
    expect(changes.decided).toBe(0);
    expect(changes.list.map(({ part, said }) => `${part}: ${said}`)).toContainEqual(
      expect.stringMatching(/^Horns: controller 7: /u),
    );
  });

  it('refuses what cannot be', async () => {
    const { refused } = await desk.moved(revision(), { [short]: '-5', 'no#such': '1', [level]: '1e9' });
    expect(refused.map(({ id }) => id).sort()).toEqual([short, level, 'no#such'].sort());
    expect(await desk.moved(revision() + 1, { [short]: '200' })).toHaveProperty('refused');
    const crossed = await desk.moved(revision(), {
      'libraries/harbour-light-horns.yaml#rules.1.when.held.from': '300',
      [short]: '1001',
    });
    expect(crossed.refused).toHaveLength(1);
  });

  it('writes into the files when it is asked to, comments kept, and shows what became otherwise', async () => {
    const before = revision();
    expect(await desk.write(before, { [short]: '900', [level]: '-10.5' })).toEqual({
      files: ['libraries/harbour-light-horns.yaml', 'skerry-point.cue.yaml'],
    });
    expect(readFileSync(horns, 'utf8')).toBe(hornsText.replace('below: 260ms', 'below: 900ms'));
    expect(readFileSync(cue, 'utf8')).toBe(cueText.replace('level: -4', 'level: -10.5'));
    const next = await desk.until((state) => state.revision > before);
    expect(next.changes?.decided).toBeGreaterThan(0);
    expect(next.levels[0]?.value).toBe('-10.5');
    expect(readdirSync(folder).filter((name) => name.includes('.tmp'))).toEqual([]);
  });

  it('writes nothing where a file was changed meanwhile', async () => {
    const before = revision();
    const edited = readFileSync(horns, 'utf8').replace('below: 900ms', 'below: 260ms');
    writeFileSync(horns, edited);
    const outcome = await desk.write(before, { [short]: '400', [level]: '-4' });
    expect(outcome).toHaveProperty('refused', expect.stringContaining('changed meanwhile'));
    expect(readFileSync(horns, 'utf8')).toBe(edited);
    expect(readFileSync(cue, 'utf8')).toContain('level: -10.5');
    await desk.until((state) => state.revision > before);
  });

  it('keeps the last good state while a file is broken, half written or gone, and tells what is wrong', async () => {
    const good = desk.states.at(-1);
    for (const damage of [
      () => writeFileSync(horns, hornsText.slice(0, 700)),
      () => writeFileSync(horns, '\u0000<script>alert(1)</script>: [\n'),
      () => rmSync(horns),
    ]) {
      const count = desk.states.length;
      damage();
      await desk.until((state) => desk.states.indexOf(state) >= count && state.isBroken);
      const { problems, sheet, revision: at } = desk.states.at(-1) ?? {};
      expect(problems?.length).toBeGreaterThan(0);
      expect({ sheet, at }).toEqual({ sheet: good?.sheet, at: good?.revision });
      expect((await fetch(`${desk.address}sheet/${sheet}`)).status).toBe(200);
    }
    writeFileSync(`${horns}.new`, hornsText);
    renameSync(`${horns}.new`, horns);
    const mended = await desk.until(({ isBroken, revision: at }) => !isBroken && at > (good?.revision ?? 0));
    expect(mended.problems).toEqual([]);
  });

  it('ends in the right state after saves twenty times a second, broken in between', async () => {
    const before = revision();
    for (let save = 0; save < 60; save++) {
      const text =
        save % 3 === 1 ? hornsText.slice(0, 40 * save) : hornsText.replace('260ms', `${300 + save}ms`);
      writeFileSync(horns, text);
      await sleep(50);
    }
    writeFileSync(horns, hornsText.replace('260ms', '777ms'));
    const last = await desk.until(
      ({ isBroken, revision: at, bounds }) =>
        !isBroken &&
        at > before &&
        bounds[0]?.values.some(({ id, value }) => id === short && value === '777') === true,
    );
    await sleep(800);
    expect(desk.states.at(-1)).toEqual(last);
  });
});

it('begins with a cue that is broken, or not there, and waits for it', async () => {
  const late = join(folder, 'late.cue.yaml');
  const waiting = await openDesk(late);
  const first = await waiting.until(({ isBroken }) => isBroken);
  expect(first).toMatchObject({ revision: 0, sheet: 0, title: 'late', bounds: [], levels: [] });
  expect(first.problems[0]?.text).toMatch(/^late\.cue\.yaml: cannot be read/u);
  expect(await waiting.moved(0, { [short]: '200' })).toHaveProperty('refused');
  writeFileSync(late, cueText);
  const good = await waiting.until(({ revision: at }) => at === 1);
  expect(good.levels.length).toBeGreaterThan(3);
  expect(await waiting.end()).toBe(0);
});

it('Ctrl-C ends it and leaves nothing', async () => {
  const child = spawn(process.execPath, [program, 'desk', cue], { stdio: ['ignore', 'pipe', 'pipe'] });
  let out = '';
  child.stdout.on('data', (data) => {
    out += String(data);
  });
  for (let waited = 0; !out.includes('\n') && waited < 20_000; waited += 20) await sleep(20);
  const address = out.trim();
  expect((await fetch(address)).status).toBe(200);
  const ended = new Promise((done) => child.once('exit', (code, signal) => done(signal ?? code)));
  child.kill('SIGINT');
  expect(await ended).toBe('SIGINT');
  await expect(fetch(address)).rejects.toThrow();
  expect(readdirSync(folder).filter((name) => name.includes('.tmp'))).toEqual([]);
  expect(existsSync(join(folder, 'skerry-point.switched.mid'))).toBe(false);
});
