import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keyslip, scratchFolder } from '../support/cli.js';

const folder = scratchFolder();
const cue = 'maps/demo/skerry-point.cue.yaml';

/** The page of the demo's cue. */
function page(...words: readonly string[]): string {
  const path = join(folder, 'sheet.html');
  expect(keyslip(['sheet', cue, '-o', path, ...words])).toMatchObject({ status: 0, err: '' });
  return readFileSync(path, 'utf8');
}
const barsOf = (html: string) => [...html.matchAll(/id="bar-(\d+)"/gu)].map(([, bar]) => Number(bar));
const chordsOf = (html: string) =>
  [...html.matchAll(/class="harm"[\s\S]*?<\/g>/gu)].map(([markup]) => markup.replace(/<[^>]*>/gu, '').trim());
/** The names of notes on a page, of one part. */
const named = (html: string, part: string) =>
  [...html.matchAll(/aria-label="([^"]+, bar [^"]+)"/gu)]
    .map(([, name = '']) => name)
    .filter((name) => name.startsWith(`${part}, `));

const whole = page();

it('a system has the staves of parts that play in it; --resting keeps the others', () => {
  const staves = (html: string) =>
    [...html.matchAll(/<section class="system"[\s\S]*?<\/section>/gu)].map(
      ([system]) => system.match(/<g class="label(?:Abbr)?"/gu)?.length ?? 0,
    );
  const all = staves(page('--resting'));
  expect(new Set(all)).toEqual(new Set([5]));
  const some = staves(whole);
  expect(some[0]).toBe(5);
  expect(some.some((count) => count < 5)).toBe(true);
  for (const part of ['Horns', 'Trumpets', 'Violins, upper desks', 'Drums'])
    expect(named(whole, part)).toEqual(named(page('--resting'), part));
});

describe('a sheet of some bars', () => {
  const some = page('--at', '5..6');

  it('has those bars, with the notes that belong to them as on the whole sheet', () => {
    expect(barsOf(whole)).toEqual(Array.from({ length: 13 }, (_, index) => index + 1));
    expect(barsOf(some)).toEqual([5, 6]);
    for (const part of ['Horns', 'Trumpets', 'Violins, upper desks', 'Drums']) {
      const there = named(whole, part).filter((name) => / bar [56],/u.test(name));
      expect(named(some, part)).toEqual(there);
      expect(there.length + Number(part === 'Horns')).toBeGreaterThan(0);
    }
  });

  it('has something to say of every note, by the name that the note has there', () => {
    const [, json = ''] = /id="notes">(.*?)<\/script>/u.exec(some) ?? [];
    const told = JSON.parse(json) as (readonly [string])[][];
    const heads = [...some.matchAll(/data-note="n(\d+)-(\d+)"[^>]*aria-label="([^"]*)"/gu)];
    expect(heads.length).toBeGreaterThan(10);
    for (const [, part, note, label = ''] of heads)
      expect(label.startsWith(`${told[Number(part)]?.[Number(note)]?.[0]}, `), label).toBe(true);
  });

  it('has the chords that were found in the whole music', () => {
    const found = chordsOf(some);
    expect(found.length).toBeGreaterThan(1);
    expect(chordsOf(whole).join(' ')).toContain(found.slice(0, -1).join(' '));
  });

  it('has an entry for the keyboard in each part that has notes, and remarks on these bars only', () => {
    const entries = [...some.matchAll(/data-note="n(\d)-\d+" tabindex="0"/gu)].map(([, part]) => part);
    expect(new Set(entries).size).toBe(entries.length);
    expect(entries.length).toBeGreaterThan(2);
    const told = [...some.matchAll(/href="#bar-(\d+)"/gu)].map(([, bar]) => Number(bar));
    expect(told.length).toBeGreaterThan(0);
    expect(told.every((bar) => barsOf(some).includes(bar))).toBe(true);
  });

  it('is refused where there are no such bars, or where it cannot be', () => {
    const refused = (...words: readonly string[]) =>
      keyslip(['sheet', cue, '-o', join(folder, 'x.html'), ...words]);
    expect(refused('--at', '99')).toEqual(
      expect.objectContaining({
        status: 2,
        err: 'keyslip: error [command-line]: --at "99" lies behind the end of the music\n',
      }),
    );
    expect(refused('--at', '5.2').status).toBe(2);
    expect(keyslip(['sheet', cue, '-o', join(folder, 'x.musicxml'), '--at', '5']).status).toBe(2);
  });
});

describe('a sheet of some parts', () => {
  it('has their staves, with the chords of the whole music', () => {
    const some = page('--part', 'Trumpets', '--part', 'Drums');
    expect(some.match(/<th scope="row">[^<]*/gu)).toEqual([
      '<th scope="row">Trumpets',
      '<th scope="row">Drums',
    ]);
    expect(named(some, 'Trumpets')).toEqual(named(whole, 'Trumpets'));
    expect(named(some, 'Horns')).toEqual([]);
    expect(chordsOf(some)).toEqual(chordsOf(whole));
  });

  it('is a score for a copyist too', () => {
    const path = join(folder, 'trumpets.musicxml');
    expect(keyslip(['sheet', cue, '-o', path, '--part', 'Trumpets']).status).toBe(0);
    expect(readFileSync(path, 'utf8').match(/<score-part /gu)).toHaveLength(1);
  });

  it('tells the nearest name of one that there is not, and that recordings have tracks', () => {
    const { status, err } = keyslip(['sheet', cue, '-o', join(folder, 'x.html'), '--part', 'Trumpet']);
    expect(status).toBe(2);
    expect(err).toContain('did you mean "Trumpets"?');
    const words = ['maps/demo/last-boat.mid', '--map', 'maps/saltmarsh-horns.yaml', '--part', 'Horns'];
    expect(keyslip(['sheet', ...words, '-o', join(folder, 'x.html')]).status).toBe(2);
  });
});
