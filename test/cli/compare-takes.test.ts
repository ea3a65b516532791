import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Ajv from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { reportSchema } from '../../src/report/schema/index.js';
import { scratchFolder } from '../support/cli.js';
import { runHere } from '../support/in-process.js';

const cwd = scratchFolder();
cpSync('test/cases/piece', cwd, { recursive: true });
const at = (name: string) => join(cwd, name);
const [cue, take, other, map] = ['piece.cue.yaml', 'take.mid', 'take-alt.mid', 'maps/tallow-horns.yaml'].map(
  at,
) as [string, string, string, string];
const compare = (...words: readonly string[]) => runHere(['compare', ...words]);
const validate = new Ajv.default({ allErrors: true, allowUnionTypes: true }).compile(reportSchema());
const cueWith = (name: string, from: string, to: string) => {
  const text = readFileSync(cue, 'utf8');
  expect(text).toContain(from);
  writeFileSync(at(name), text.replace(from, to));
  return at(name);
};

interface Told {
  readonly takes: readonly {
    readonly name: string;
    readonly same: number;
    readonly lone: readonly { readonly bar: number }[];
    readonly altered: readonly { readonly bar: number; readonly decided?: object }[];
  }[];
  readonly events: readonly unknown[];
}

// The second take has another bar 20 of the horns (test/cases); midi-file reads every other event of both alike.
describe('keyslip compare of two takes', () => {
  it('says what the new bar 20 changed, and that nothing else did', async () => {
    const { status, out, err } = await compare(take, other, '--map', `Horns=${map}`);
    expect([status, err]).toEqual([1, '']);
    expect(out.replaceAll(`${cwd}/`, '').split('\n')).toEqual([
      'Track 5 "Horns", channel 4:',
      '  bar 20: 3 notes removed (A#4 G4 A4), 5 notes added (C5 A#4 E4 F4 C5), 3 notes played otherwise (A4 G4 F4: place, length, velocity)',
      '  bar 20: marcato → legato, F4 at 20.3',
      '      maps/tallow-horns.yaml:51: velocity 111 (from 105), held 402.5 ms (below 700ms)',
      '    → maps/tallow-horns.yaml:46: overlaps the next note, held 245.3 ms (from 150ms)',
      '  bar 21: sustain → legato, A4 at 21.1',
      '      maps/tallow-horns.yaml:52: no condition, nothing above it fits',
      '    → maps/tallow-horns.yaml:46: the previous note overlaps it, held 1554 ms (from 150ms)',
      '',
      'Nothing else changed: 143 notes are as they were, 0 of 1 part in every note, and so are all other events.',
      '',
    ]);
    expect((await compare(take, other, '--map', `Horns=${map}`, '--quiet')).out).not.toContain(
      'Nothing else',
    );
  });

  it('says so in JSON, in the shape of the schema', async () => {
    const { out, status } = await compare(take, other, '--map', map, '--track', 'Horns', '--json');
    const printed = JSON.parse(out) as Told;
    expect([status, validate(printed), validate.errors]).toEqual([1, true, null]);
    const bars = printed.takes.flatMap(({ lone, altered }) => [...lone, ...altered].map(({ bar }) => bar));
    expect([...new Set(bars)].sort()).toEqual([20, 21]);
    expect([printed.takes.length, printed.takes[0]?.same, printed.events]).toEqual([1, 143, []]);
  });

  it('says that nothing changed, and is status 0', async () => {
    const { status, out } = await compare(take, take, '--map', map, '--track', 'Horns');
    expect([status, out]).toEqual([0, 'Nothing changed: 150 notes in 1 part, and all other events.\n']);
  });

  it('tells it to what runs it, at its place', async () => {
    const { out, status } = await compare(
      take,
      other,
      '--map',
      map,
      '--track',
      'Horns',
      '--format',
      'github',
    );
    expect(status).toBe(1);
    expect(out).toContain(
      'title=keyslip%3A changed-take::track 5 "Horns", bar 20 beat 1: Horns: 3 notes removed',
    );
    expect(out).toContain('1 note sustain → legato');
    const sarif = await compare(take, other, '--map', map, '--track', 'Horns', '--format', 'sarif');
    expect(sarif.out).toContain('"ruleId": "changed-take"');
  });

  it('tells the errors of both, and is status 1', async () => {
    const { status, out, err } = await compare(at('no.mid'), at('none.mid'), '--map', map);
    expect([status, out]).toEqual([1, '']);
    for (const name of ['no.mid', 'none.mid']) expect(err).toContain(`${name}: error [cannot-read]`);
    const printed = JSON.parse(
      (await compare(at('no.mid'), other, '--map', map, '--track', 'Horns', '--json')).out,
    ) as object;
    expect([validate(printed), validate.errors]).toEqual([true, null]);
  });

  it('is status 2 for a wrong command line, and says what would be right', async () => {
    for (const [words, said] of [
      [[take, other], 'say which map plays both takes: --map MAP.yaml'],
      [[take, '--map', map], '--map goes with two recordings'],
      [[map, map, '--map', map], 'two maps are compared without --map'],
      [[take, other, '--map', map], 'several tracks have notes'],
      [[take, other, '--map', map, '--part', 'Horns'], '--part names a part of a cue'],
      [[take, cue], 'name the cue first'],
      [[cue], 'name two cues'],
      [[cue, map], 'a cue is compared with another cue'],
      [[cue, cue, take], 'leave the others out'],
      [[cue, other, '--map', map], 'a cue names its maps itself'],
      [[cue, other, '--track', 'Horns'], 'a cue names its tracks itself'],
      [[cue, other, '--part', 'Hrons'], 'did you mean "Horns"?'],
      [[cue, other, '--music', cwd], '--music goes with --since'],
      [['--since', 'HEAD', '--map', map], 'leave --map and --part out'],
    ] as const) {
      const { status, err } = await compare(...words);
      expect([words, status, err.includes(said)]).toEqual([words, 2, true]);
    }
  });
});

describe('keyslip compare of cues', () => {
  it('takes another take for the cue: only the horns and their layer change, in and behind its bar', async () => {
    const { status, out } = await compare(cue, other, '--json');
    const printed = JSON.parse(out) as Told;
    expect([status, validate(printed), validate.errors]).toEqual([1, true, null]);
    const changed = printed.takes.filter(({ lone, altered }) => lone.length + altered.length > 0);
    expect(changed.map(({ name }) => name)).toEqual(['Horns', 'Horns – bite']);
    // One empty bar stands before the music.
    const bars = changed.flatMap(({ lone, altered }) => [...lone, ...altered].map(({ bar }) => bar));
    expect([...new Set(bars)].sort()).toEqual([21, 22]);
    expect([printed.takes.length, printed.events]).toEqual([17, []]);
    const { out: text } = await compare(cue, other);
    expect(text).toContain('Nothing else changed: 1672 notes are as they were, 15 of 17 parts in every note');
    expect(text).toContain('Bars are counted with 1 empty bar before the music (preroll).');
  });

  it('says the same of a cue that names the other take', async () => {
    const second = cueWith('alt.cue.yaml', 'source: take.mid', 'source: take-alt.mid');
    const [one, two] = [
      await compare(cue, other, '--part', 'Horns'),
      await compare(cue, second, '--part', 'Horns'),
    ];
    expect([one.status, two.out]).toEqual([1, one.out]);
  });

  it('finds nothing where only the empty bars before the music are others', async () => {
    const later = cueWith('later.cue.yaml', 'preroll: 1', 'preroll: 3');
    // Chance is drawn anew for the chords that are rolled, since they stand at other ticks.
    const [one, two] = [cue, later].map((file, index) => {
      const still = at(`still-${index}.cue.yaml`);
      writeFileSync(still, readFileSync(file, 'utf8').replace(/, roll: 14ms/u, ''));
      return still;
    }) as [string, string];
    const { out, status } = await compare(one, two, '--part', 'Trumpets');
    expect(out).toContain('Nothing changed: 61 notes in 1 part, and all other events.');
    expect(status).toBe(0);
  });

  it('tells what another level or timing changes: events, and how notes are sent', async () => {
    const { takes: louder, events } = JSON.parse(
      (await compare(cue, cueWith('louder.cue.yaml', 'level: -5', 'level: -3'), '--part', 'Horns', '--json'))
        .out,
    ) as Told;
    expect(louder.every(({ lone, altered }) => lone.length + altered.length === 0)).toBe(true);
    expect(events).toContainEqual(expect.objectContaining({ name: 'Horns', kind: 'controller 7' }));
    const looser = cueWith('looser.cue.yaml', 'pull: 60%', 'pull: 20%');
    const { out, status } = await compare(cue, looser, '--part', 'Trumpets');
    expect(status).toBe(1);
    expect(out).toMatch(/ {2}sent otherwise, though played and decided as before: \d+ notes, bars /u);
  });

  it('tells what another map changes, by what its articulations mean', async () => {
    const moved = cueWith('moved.cue.yaml', 'maps/tallow-horns.yaml', 'maps/marrow-horns.yaml');
    const { out, status } = await compare(cue, moved, '--part', 'Horns');
    expect(status).toBe(1);
    expect(out).toContain('marrow-horns.yaml');
    expect(out).toContain('  bar 21: marcato → long (plain sound of its class), F5 at 21.3\n');
  });
});
