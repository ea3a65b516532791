import { type Cue, planCue, readCue } from '../cue/index.js';
import { type Diagnostic, plural } from '../diagnostics/index.js';
import { type CommonOptions, limits } from './context.js';
import { besideCue, loadMaterial, outputRefused, overwrites } from './cue-files.js';
import { isVersion } from './git/version.js';
import type { Io } from './io.js';
import { checkCueVersion } from './staged-cue.js';

/** A file that was checked: what is in it, in a few words, if it can be read. */
export interface Checked {
  readonly content: string | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

/** Checks a cue with everything that it names. */
export async function checkCue(
  bytes: Uint8Array,
  file: string,
  options: CommonOptions,
  io: Io,
): Promise<Checked> {
  const { value: cue, diagnostics: ofCue } = readCue(bytes, file, { maxBytes: options.maxMap ?? limits.map });
  if (!cue) return { content: undefined, diagnostics: ofCue };
  if (isVersion(file))
    return {
      content: cueContent(cue),
      diagnostics: [...ofCue, ...(await checkCueVersion(cue, file, options, io))],
    };
  const { value: material, diagnostics: ofFiles } = await loadMaterial(cue, options, io);
  const planned = material && planCue(cue, material);
  const found = [
    ...ofFiles,
    ...outputRefused(cue, false),
    ...overwrites(cue, besideCue(cue, cue.output)),
    ...(planned?.diagnostics ?? []),
  ];
  return { content: cueContent(cue), diagnostics: [...ofCue, ...found] };
}

function cueContent({ parts }: Cue): string {
  const layers = parts.reduce((sum, part) => sum + part.layers.length, 0);
  return `${plural(parts.length, 'part')}, ${plural(layers, 'layer')}`;
}
