import { UsageError } from './io.js';

/** The maps and recordings that `compare` is given without --since. */
export function twoMaps(
  a: string | undefined,
  b: string | undefined,
  inputs: readonly string[],
  { music }: { readonly music?: string },
): { readonly a: string; readonly b: string; readonly inputs: readonly string[] } {
  if (a === undefined || b === undefined)
    throw new UsageError('name two maps, or two versions of one; or --since REVISION');
  if (music !== undefined)
    throw new UsageError('--music goes with --since: without it, name the recordings behind the maps');
  return { a, b, inputs };
}

/** The maps, folders and patterns that `compare --since` is given. */
export function mapsAlone(
  words: readonly (string | undefined)[],
  {
    track,
    channel,
    map,
    part,
  }: {
    readonly track: readonly string[];
    readonly channel?: number;
    readonly map: readonly string[];
    readonly part: readonly string[];
  },
): readonly string[] {
  if (map.length > 0 || part.length > 0)
    throw new UsageError('with --since, maps that changed are compared: leave --map and --part out');
  if (track.length > 0 || channel !== undefined)
    throw new UsageError(
      'with --since, cues and the names of recordings say what plays: leave --track and --channel out',
    );
  const files = words.filter((word) => word !== undefined);
  if (files.includes('-'))
    throw new UsageError('with --since, maps are files: standard input has no version before');
  return files;
}
