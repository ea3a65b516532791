import { posix } from 'node:path';
import { type Cue, type CueMaterial, mapsOf, planCue } from '../cue/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import type { ArticulationMap } from '../map/index.js';
import { type CommonOptions, limits, songOf } from './context.js';
import { loadMapVersion, readVersion } from './git/version.js';
import type { Io } from './io.js';

/** What is wrong with a cue that git keeps, and with what it names in the same version: `:maps/night.cue.yaml`, as it is staged. */
export async function checkCueVersion(
  cue: Cue,
  file: string,
  options: CommonOptions,
  io: Io,
): Promise<readonly Diagnostic[]> {
  const at = file.indexOf(':') + 1;
  const beside = (path: string) => `${file.slice(0, at)}${posix.join(posix.dirname(file.slice(at)), path)}`;
  const diagnostics: Diagnostic[] = [];
  const source = beside(cue.source.text);
  const { value: bytes, diagnostics: ofFile } = await readVersion(source, options.maxMidi ?? limits.midi);
  const song = bytes && (await songOf(bytes, source, options));
  diagnostics.push(...ofFile, ...(song?.diagnostics ?? []));
  const maps = new Map<string, ArticulationMap>();
  const named = mapsOf(cue);
  for (const { text } of named) {
    const { value: map, diagnostics: found } = await loadMapVersion(beside(text), options, io);
    diagnostics.push(...found);
    if (map) maps.set(text, map);
  }
  const material: CueMaterial | undefined =
    song?.value && maps.size === named.length ? { song: song.value, maps } : undefined;
  return [...diagnostics, ...(material ? planCue(cue, material).diagnostics : [])];
}
