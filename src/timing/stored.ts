import { defaultSeed } from './hash.js';
import type { GridWidth, TimingOptions } from './options.js';
import { rollOrders } from './roll.js';

/** What a part was compiled with, as a compiled file carries it. */
export interface StoredOptions {
  /** The channel of the part in the recording, 1–16. */
  readonly channel: number;
  /** Empty bars before the music. */
  readonly preroll: number;
  /** Absent where nothing but a preroll was asked for. */
  readonly timing?: TimingOptions;
}

/** How such a text begins: whose it is, and the version of what follows. */
const version = 'keyslip/1';

/** Longer texts are not looked into. Unit: characters. */
const longest = 300;

/** Whether a text says what a file was compiled with, in this version or another. */
export function isStored(text: string): boolean {
  return text.startsWith('keyslip/');
}

/** The options as a text, spelled as on the command line: `keyslip/1 --channel 1 --compensate --pull 60% --seed 1`. */
export function formatStored({ channel, preroll, timing }: StoredOptions): string {
  const words = [version, `--channel ${channel}`];
  if (preroll > 0) words.push(`--preroll ${preroll}`);
  if (!timing) return words.join(' ');
  const { compensate, joins, pull, grids, roll, loosenMs, seed } = timing;
  if (compensate) words.push('--compensate');
  if (joins) words.push('--joins');
  if (pull !== undefined) words.push(`--pull ${share(pull)}`);
  if (grids)
    words.push(
      `--grid ${grids.map(({ numerator, denominator }) => `${numerator}/${denominator}`).join(',')}`,
    );
  if (roll) words.push(`--roll ${roll.sdMs}ms`, `--roll-order ${roll.order}`);
  if (loosenMs !== undefined) words.push(`--loosen ${loosenMs}ms`);
  if (roll || loosenMs !== undefined) words.push(`--seed ${seed}`);
  return words.join(' ');
}

/** A share in percent, or as it is where percent would not give it back. */
function share(of: number): string {
  const percent = Math.round(of * 1e5) / 1e3;
  return percent / 100 === of ? `${percent}%` : `${of}`;
}

/** Reads such a text back; undefined for one that is not in order: nothing in it is believed then. */
export function parseStored(text: string): StoredOptions | undefined {
  const [head, ...words] = text.length > longest ? [] : text.trim().split(' ');
  if (head !== version) return undefined;
  const said = new Map<string, string>();
  for (let at = 0; at < words.length; at++) {
    const name = words[at] ?? '';
    const isFlag = name === '--compensate' || name === '--joins';
    if (!known.has(name) || said.has(name)) return undefined;
    said.set(name, isFlag ? '' : (words[++at] ?? ''));
  }
  return optionsOf(said);
}

/** How the values of options are written; flags have none. */
const known: ReadonlyMap<string, RegExp> = new Map([
  ['--channel', /^([1-9]|1[0-6])$/u],
  ['--preroll', /^\d{1,2}$/u],
  ['--compensate', /^$/u],
  ['--joins', /^$/u],
  ['--pull', /^(\d{1,3}(\.\d{1,3})?%|[01](\.\d{1,20})?)$/u],
  ['--grid', /^[1-9]\d{0,2}\/[1-9]\d{0,2}(,[1-9]\d{0,2}\/[1-9]\d{0,2}){0,7}$/u],
  ['--roll', /^\d{1,4}(\.\d{1,20})?ms$/u],
  ['--roll-order', new RegExp(`^(${rollOrders.join('|')})$`, 'u')],
  ['--loosen', /^\d{1,4}(\.\d{1,20})?ms$/u],
  ['--seed', /^\d{1,9}$/u],
]);

/** The bounds that the command line has for them too. */
const most = { preroll: 64, ms: 1000, share: 1 };

function optionsOf(said: ReadonlyMap<string, string>): StoredOptions | undefined {
  for (const [name, value] of said) if (!known.get(name)?.test(value)) return undefined;
  const number = (name: string) => Number.parseFloat(said.get(name) ?? '');
  const [channel, preroll, seed] = [number('--channel'), number('--preroll'), number('--seed')];
  const [roll, loosen] = [number('--roll'), number('--loosen')];
  const pull = number('--pull') / (said.get('--pull')?.endsWith('%') ? 100 : 1);
  if (Number.isNaN(channel) || preroll > most.preroll || pull > most.share) return undefined;
  if (roll > most.ms || loosen > most.ms || said.has('--roll') !== said.has('--roll-order')) return undefined;
  const order = rollOrders.find((one) => one === said.get('--roll-order'));
  const grids = said.get('--grid')?.split(',').flatMap(gridOf);
  const timing: TimingOptions = {
    compensate: said.has('--compensate'),
    joins: said.has('--joins'),
    ...(Number.isNaN(pull) ? {} : { pull }),
    ...(grids ? { grids } : {}),
    ...(order ? { roll: { sdMs: roll, order } } : {}),
    ...(Number.isNaN(loosen) ? {} : { loosenMs: loosen }),
    seed: Number.isNaN(seed) ? defaultSeed : seed,
  };
  const isTimed = [...said.keys()].some((name) => name !== '--channel' && name !== '--preroll');
  return { channel, preroll: Number.isNaN(preroll) ? 0 : preroll, ...(isTimed ? { timing } : {}) };
}

function gridOf(text: string): readonly GridWidth[] {
  const [numerator, denominator] = text.split('/').map(Number);
  return numerator && denominator ? [{ numerator, denominator }] : [];
}
