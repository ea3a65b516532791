import { describe, expect, it } from 'vitest';
import { runHere } from '../support/in-process.js';

/** What is told, and below it what would be right. */
const wrong: readonly (readonly [words: string, message: string, hint: string])[] = [
  ['help nosuch', 'there is no command "nosuch"', 'keyslip help shows what there is'],
  ['help complie', 'there is no command "complie"', 'did you mean "compile"?'],
  ['complie', 'there is no command "complie"', 'did you mean "compile"?'],
  ['check --stict a.yaml', 'check has no option "--stict"', 'did you mean "--strict"?'],
  ['check --no-colour a.yaml', 'check has no option "--no-colour"', 'did you mean "--no-color"?'],
  ['check --zzz=1 a.yaml', 'check has no option "--zzz=1"', 'keyslip help check shows its options'],
  ['check', 'check needs <file.yaml>', 'keyslip help check shows how it is called'],
  [
    'compile a.mid -o',
    'a value is missing: -o, --output <out.mid|folder>',
    'keyslip help compile shows its options',
  ],
  ['mark a.mid', 'mark needs --score <score>', 'keyslip help mark shows its options'],
  ['compile a.mid -c 99', '-c, --channel <1-16> cannot be "99"', 'A channel is a number from 1 to 16.'],
  ['schema mop', '<kind> cannot be "mop"', 'did you mean "map"?'],
  ['inspect a.mid --per year', '--per <length> cannot be "year"', 'it is one of beat, bar'],
  ["check --it's a.yaml", 'check has no option "--it\'s"', 'keyslip help check shows its options'],
];

describe('a command line that is wrong', () => {
  for (const [words, message, hint] of wrong)
    it(`is told as any other diagnostic: ${words}`, async () => {
      const { status, out, err } = await runHere(words.split(' '));
      expect({ status, out, err }).toEqual({
        status: 2,
        out: '',
        err: `keyslip: error [command-line]: ${message}\n    ${hint}\n`,
      });
    });

  it('has its control characters escaped', async () => {
    const { status, err } = await runHere(['\u001b[2J']);
    expect(status).toBe(2);
    expect(err).toContain('\\u{1b}');
    expect(err).not.toContain('\u001b');
  });

  it('names too many arguments', async () => {
    const { err: many } = await runHere(['explain', 'a.mid', 'b.mid']);
    expect(many).toMatch(/^keyslip: error \[command-line\]: too many arguments.*\n {4}keyslip help explain/u);
  });
});

describe('help', () => {
  it('is shown for a command, or for all, and is no error', async () => {
    for (const words of [['help'], ['--help'], ['help', 'check'], ['check', '--help']]) {
      const { status, out, err } = await runHere(words);
      expect({ status, err }).toEqual({ status: 0, err: '' });
      expect(out).toContain('Usage: keyslip');
      expect(out).toContain('--no-color');
    }
    expect((await runHere(['help', 'check'])).out).toBe((await runHere(['check', '--help'])).out);
  });
});
