import { readdirSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { diagnostic, type Outcome } from '../diagnostics/index.js';
import { bankEndings, bankLimit, bankPlaces, preferredBanks } from '../sound/index.js';
import { readInput } from './files/read.js';
import type { Io } from './io.js';

/** A bank of sounds that was read. */
export interface LoadedBank {
  readonly file: string;
  readonly bytes: Uint8Array;
}

/** Reads the bank that was named, or the likeliest of those in the usual places. */
export async function loadBank(
  named: string | undefined,
  io: Io,
  places: readonly string[] = bankPlaces,
): Promise<Outcome<LoadedBank>> {
  const file = named ?? usualBank(places);
  if (file === undefined)
    return {
      value: undefined,
      diagnostics: [
        diagnostic(
          'no-bank',
          { kind: 'file', file: '--bank' },
          'no bank of sounds was named, and none is in the usual places',
          'name one with --bank FILE.sf2; Debian has fluid-soundfont-gm and timgm6mb-soundfont',
        ),
      ],
    };
  const size = sizeOf(file);
  if (size > bankLimit) {
    const message = `the bank has ${Math.ceil(size / 2 ** 20)} MB, more than ${bankLimit / 2 ** 20}`;
    return { value: undefined, diagnostics: [diagnostic('bank-too-large', { kind: 'file', file }, message)] };
  }
  const { value: bytes, diagnostics } = await readInput(file, bankLimit, io);
  return { value: bytes && { file, bytes }, diagnostics };
}

/** 0 where that is not known; what is wrong with the file is told where it is read. */
function sizeOf(file: string): number {
  try {
    return statSync(file).size;
  } catch {
    return 0;
  }
}

function usualBank(places: readonly string[]): string | undefined {
  for (const place of places) {
    const folder = place.startsWith('~') ? join(homedir(), place.slice(1)) : place;
    const banks = filesIn(folder).filter((name) => bankEndings.some((ending) => isEnding(name, ending)));
    const [first] = banks.sort((a, b) => rank(a) - rank(b) || (a < b ? -1 : 1));
    if (first !== undefined) return join(folder, first);
  }
  return undefined;
}

function filesIn(folder: string): readonly string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}

function isEnding(name: string, ending: string): boolean {
  return name.toLowerCase().endsWith(ending);
}

function rank(name: string): number {
  const at = preferredBanks.findIndex((begin) => name.startsWith(begin));
  return at < 0 ? preferredBanks.length : at;
}
