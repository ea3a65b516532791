import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keyslip, scratchFolder } from '../support/cli.js';
import { bytesOf, type TestNote, trackOf } from '../support/song.js';

const cwd = scratchFolder();
const run = (...words: readonly string[]) => keyslip(words, { cwd });

const sketch = `# Of an invented library; the order is that of its manual.
format: keyslip-map/1
library: Cold Harbour Brass
instrument: Trombones
family: brass
note-60: C4
range: [E2, D5]
articulations:
  short: {switch: {note: C0}}   # the driest
  medium: {switch: {note: D0}}
  joined: {switch: {note: E0}}
  long: {switch: {note: F0}}
`;
const rules = `rules:
  - when: {held-share: {from: 100%}}
    use: joined
  - when: {held: {below: 140ms}}
    use: short
  - when: {held: {from: 140ms, below: 400ms}}
    use: medium
  - use: long
`;

/** Lengths and gaps of a take as a hand plays them; the same every time (a linear congruence, Numerical Recipes). */
function take(count: number): readonly TestNote[] {
  let seed = 20_261_125;
  const next = () => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return seed / 2 ** 32;
  };
  let tick = 0;
  return Array.from({ length: count }, () => {
    const held = Math.round(40 * 20 ** next());
    const isJoined = next() < 0.25;
    const note = {
      tick,
      end: tick + held,
      pitch: 45 + Math.floor(24 * next()),
      velocity: 40 + Math.floor(60 * next()),
    };
    tick += isJoined ? Math.max(30, held - 5) : held + 40 + Math.floor(200 * next());
    return note;
  });
}

writeFileSync(join(cwd, 'take.mid'), bytesOf([trackOf(take(600), [], 'Trombones')]));
writeFileSync(join(cwd, 'sketch.yaml'), sketch);
writeFileSync(join(cwd, 'true.yaml'), `${sketch}${rules}`);
expect(run('compile', 'take.mid', '--map', 'true.yaml', '-o', 'switched.mid')).toMatchObject({ status: 0 });

describe('keyslip learn', () => {
  const { status, out, err } = run('learn', 'switched.mid', '--map', 'sketch.yaml', '-o', 'learned.yaml');

  it('writes a map that check --strict passes, in which the sketch is as it was', () => {
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(run('check', '--strict', 'learned.yaml')).toMatchObject({ status: 0, err: '' });
    expect(readFileSync(join(cwd, 'learned.yaml'), 'utf8').startsWith(sketch.trimEnd())).toBe(true);
    expect(readFileSync(join(cwd, 'learned.yaml'), 'utf8')).toContain('expect: [');
  });

  it('learns the rules that the switches were placed by, from notes without the switches', () => {
    const [, right, of] = /decides (\d+) of (\d+) notes as they sounded/u.exec(out) ?? [];
    expect(Number(of)).toBe(600);
    expect(Number(right)).toBeGreaterThanOrEqual(594);
    const compared = run('compare', 'true.yaml', 'learned.yaml', 'take.mid', '--json');
    const { changes, notes } = JSON.parse(compared.out);
    expect({ notes, right: notes - changes }).toEqual({ notes: 600, right: Number(right) });
  });

  it('gives a map that compiles the tracks it came from, and their result is proved', () => {
    const compiled = run('compile', 'take.mid', '--map', 'learned.yaml', '-o', 'again.mid', '--prove');
    expect(compiled).toMatchObject({ status: 0, err: '' });
  });

  it('is told as JSON too', () => {
    const { out: json } = run('learn', 'switched.mid', '--map', 'sketch.yaml', '-o', 'j.yaml', '--json');
    const told = JSON.parse(json);
    expect(told).toMatchObject({ format: 'keyslip-learn/1', verdict: 'ladder', notes: 600, guess: false });
    expect(told.rules.at(-1).when).toBe('everything else');
  });

  it('writes nothing where no rule fits: nothing-learned', () => {
    const even = Array.from({ length: 60 }, (_, index) => ({
      tick: index * 240,
      end: index * 240 + 120,
      pitch: 60,
    }));
    const keys = [0, 30].map((at) => ({
      tick: at * 240 - (at && 20),
      end: at * 240 + 2 - (at && 20),
      pitch: at ? 14 : 12,
    }));
    writeFileSync(join(cwd, 'even.mid'), bytesOf([trackOf([...keys, ...even], [], 'Trombones')]));
    const refused = run('learn', 'even.mid', '--map', 'sketch.yaml', '-o', 'none.yaml');
    expect(refused.status).toBe(1);
    expect(refused.err).toContain('[nothing-learned]');
    expect(existsSync(join(cwd, 'none.yaml'))).toBe(false);
  });

  it('refuses a sketch in braces: no-sketch', () => {
    const flow =
      '{format: keyslip-map/1, library: A, instrument: B, family: brass, note-60: C4, range: [E2, D5], articulations: {short: {switch: {note: C0}}, medium: {switch: {note: D0}}, joined: {switch: {note: E0}}, long: {switch: {note: F0}}}, rules: [{use: long}]}';
    writeFileSync(join(cwd, 'flow.yaml'), flow);
    const refused = run('learn', 'switched.mid', '--map', 'flow.yaml', '-o', 'none.yaml');
    expect(refused.status).toBe(1);
    expect(refused.err).toContain('[no-sketch]');
    expect(existsSync(join(cwd, 'none.yaml'))).toBe(false);
  });

  it('refuses what would be lost or is not said, status 2', () => {
    for (const words of [
      ['switched.mid', '-o', 'x.yaml'],
      ['switched.mid', '--map', 'sketch.yaml'],
      ['switched.mid', '--map', 'sketch.yaml', '-o', 'sketch.yaml'],
      ['switched.mid', '--map', 'sketch.yaml', '-o', 'switched.mid'],
    ])
      expect(run('learn', ...words).status).toBe(2);
    expect(readFileSync(join(cwd, 'sketch.yaml'), 'utf8')).toBe(sketch);
  });

  it('tells what is wrong with the files, all at once', () => {
    writeFileSync(join(cwd, 'bad.yaml'), sketch.replace('family: brass', 'family: bras'));
    const refused = run('learn', 'lost.mid', '--map', 'bad.yaml', '-o', 'x.yaml');
    expect(refused.status).toBe(1);
    expect(refused.err).toContain('bad.yaml:5:9');
    expect(refused.err).toContain('[cannot-read]');
  });
});

describe('keyslip suggest', () => {
  it('shows how lengths fall, the bounds of the map among them, and what others would give', () => {
    const { status, out, err } = run('suggest', 'take.mid', '--map', 'true.yaml');
    expect({ status, err }).toEqual({ status: 0, err: '' });
    for (const shown of [
      'held-share:',
      '← 100%',
      "the map's 140ms:",
      "the map's 400ms:",
      'switches in 100 notes',
    ])
      expect(out).toContain(shown);
    const { parts } = JSON.parse(run('suggest', 'take.mid', '--map', 'true.yaml', '--json').out);
    expect(parts[0].bounds.map(({ bound }: { bound: object }) => bound)).toEqual([
      { measure: 'held-share', value: 100, text: '100%' },
      { measure: 'held', value: 140, text: '140ms' },
      { measure: 'held', value: 400, text: '400ms' },
    ]);
  });

  it('counts what another bound would change as compare does', () => {
    const two = (tick: number, held: number) => ({ tick, end: tick + held, pitch: 60 });
    const heaps = Array.from({ length: 200 }, (_, index) =>
      two(index * 960, index % 2 === 0 ? 60 + (index % 14) : 480 + (index % 26)),
    );
    writeFileSync(join(cwd, 'heaps.mid'), bytesOf([trackOf(heaps, [], 'Trombones')]));
    const bounds = (ms: number) =>
      `${sketch}rules:\n  - when: {held: {below: ${ms}ms}}\n    use: short\n  - use: long\n`;
    writeFileSync(join(cwd, 'cut.yaml'), bounds(70));
    const { parts } = JSON.parse(run('suggest', 'heaps.mid', '--map', 'cut.yaml', '--json').out);
    const [{ cutsHeap, alternatives }] = parts[0].bounds;
    const [other] = alternatives;
    expect(cutsHeap).toBe(true);
    writeFileSync(join(cwd, 'moved.yaml'), bounds(other.bound.value));
    const { changes } = JSON.parse(run('compare', 'cut.yaml', 'moved.yaml', 'heaps.mid', '--json').out);
    expect(changes).toBeGreaterThan(0);
    expect(other.changed).toBe(changes);
  });

  it('needs a map', () => {
    expect(run('suggest', 'take.mid').status).toBe(2);
  });
});
