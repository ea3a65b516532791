import { existsSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { glob } from 'tinyglobby';
import { type Cue, mapsOf, partsFor } from '../cue/index.js';
import { type Diagnostic, diagnostic, type Outcome } from '../diagnostics/index.js';
import type { Part, Song } from '../midi/index.js';
import { besideCue } from './cue-files.js';
import { UsageError } from './io.js';
import { patternBelow } from './pattern-below.js';
import { partsOfOnlyTrack } from './tracks.js';

/** A recording that a map plays. */
export interface Played {
  readonly file: string;
  /** The parts of it that the map plays. Errors: no-notes, several-tracks, unknown-track. */
  readonly parts: (song: Song) => Outcome<readonly Part[]>;
}

/** The recordings of a folder; those of `music/` where none is named and it is there. Errors: cannot-read. */
export async function recordingsIn(folder: string | undefined): Promise<Outcome<readonly string[]>> {
  const where = folder ?? 'music';
  if (!existsSync(where))
    return folder === undefined
      ? { value: [], diagnostics: [] }
      : {
          value: undefined,
          diagnostics: [
            diagnostic(
              'cannot-read',
              { kind: 'file', file: where },
              'cannot be read: there is no such file or folder',
              'name the folder of the recordings',
            ),
          ],
        };
  const pattern = await patternBelow(where, '{mid,midi,musicxml,mxl,mei}');
  const found = await glob(pattern, { caseSensitiveMatch: false, expandDirectories: false });
  return { value: found.sort(), diagnostics: [] };
}

/**
 * The recordings that each map plays: those that a cue gives it, and those that are named after it (`horns.mid`,
 * `horns-2.mid`, anything in a folder `horns`). A recording that none plays is told (unplayed-recording).
 */
export function playedBy(
  maps: readonly string[],
  recordings: readonly string[],
  cues: readonly Cue[],
): { readonly played: ReadonlyMap<string, readonly Played[]>; readonly diagnostics: readonly Diagnostic[] } {
  const played = new Map<string, Played[]>(maps.map((map) => [map, []]));
  const taken = new Set<string>();
  for (const cue of cues) {
    const source = besideCue(cue, cue.source);
    taken.add(resolve(source));
    for (const spelled of mapsOf(cue)) {
      const map = maps.find((one) => resolve(one) === resolve(besideCue(cue, spelled)));
      if (map) played.get(map)?.push({ file: source, parts: (song) => partsOfCue(song, cue, spelled.text) });
    }
  }
  for (const file of recordings) {
    const own = mapsNamedIn(file, maps);
    for (const map of own) played.get(map)?.push({ file, parts: onlyTrack });
    if (own.length > 0) taken.add(resolve(file));
  }
  const diagnostics = recordings.filter((file) => !taken.has(resolve(file))).map(unplayed);
  return { played, diagnostics };
}

/** The maps whose name a recording has, or a folder that it stands in; the longest such name counts. */
function mapsNamedIn(file: string, maps: readonly string[]): readonly string[] {
  const steps = file.split('/');
  const name = steps.pop() ?? '';
  const lengths = maps.map((map) => {
    const stem = basename(map).replace(/\.ya?ml$/u, '');
    const isNamed = name.startsWith(stem) && /^[-._ ]/u.test(name.slice(stem.length));
    return isNamed || steps.includes(stem) ? stem.length : 0;
  });
  const longest = Math.max(0, ...lengths);
  return longest === 0 ? [] : maps.filter((_, index) => lengths[index] === longest);
}

/** The parts of a cue's source that one of its maps plays; a layer's map plays those of its part. */
function partsOfCue(song: Song, cue: Cue, map: string): Outcome<readonly Part[]> {
  const found = cue.parts
    .filter((part) => part.map.text === map || part.layers.some((layer) => layer.map?.text === map))
    .map((part) => partsFor(song, part));
  return {
    value: found.flatMap(({ value = [] }) => value),
    diagnostics: found.flatMap(({ diagnostics }) => diagnostics),
  };
}

function onlyTrack(song: Song): Outcome<readonly Part[]> {
  try {
    return { value: partsOfOnlyTrack(song, undefined), diagnostics: [] };
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    const found = diagnostic(
      'several-tracks',
      { kind: 'file', file: song.file },
      'several tracks have notes, and the name of the recording does not tell which of them the map plays',
      `keep them in files of their own, or write a cue that gives each track its map (keyslip init --cue ${join(song.file)})`,
    );
    return { value: undefined, diagnostics: [found] };
  }
}

function unplayed(file: string): Diagnostic {
  return diagnostic(
    'unplayed-recording',
    { kind: 'file', file },
    'no map plays it, so that no change is seen in it',
    'name it after its map (horns.mid, horns-2.mid), put it into a folder of that name, or name it in a cue',
  );
}
