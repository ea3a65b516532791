import { type Diagnostic, diagnostic, escapeText, isError, type Outcome } from '../../diagnostics/index.js';
import type { ArticulationMap } from '../../map/index.js';
import {
  type MeasureResult,
  measureBounce,
  measureText,
  probedLibrary,
  writeMeasured,
} from '../../sound/index.js';
import { type CommonOptions, limits, loadMap, show, status } from '../context.js';
import { putOutputs } from '../files/put.js';
import { readInput } from '../files/read.js';
import { readSound } from '../files/sound.js';
import { exit, type Io, UsageError } from '../io.js';
import { jsonOf, printJson } from '../json.js';
import { shareLine } from '../progress.js';

export interface MeasureOptions extends CommonOptions {
  readonly map?: string;
  /** Put what was measured into the map. */
  readonly write?: boolean;
}

/** `keyslip measure`: says what the bounce of a probe tells of a library, and writes it into its map where that is asked. */
export async function measureCommand(bounce: string, options: MeasureOptions, io: Io): Promise<number> {
  const { map: mapFile } = options;
  if (mapFile === undefined) throw new UsageError('say which map the probe was made for: --map MAP.yaml');
  if (bounce === '-') throw new UsageError('a bounce is read several times: give it as a file');
  if (options.write && mapFile === '-') throw new UsageError('--write needs a map file, not standard input');
  const { value: map, diagnostics: ofMap } = await loadMap(mapFile, options, io);
  const measured =
    map && status(ofMap, options) === exit.done ? await measure(bounce, map, options, io) : undefined;
  const result = measured?.value;
  const written = result && map && options.write ? await write(mapFile, map, result, options, io) : undefined;
  const all = [...ofMap, ...(measured?.diagnostics ?? []), ...(written?.diagnostics ?? [])];
  if (options.json) printJson({ format: 'keyslip-measure/1', ...result, diagnostics: jsonOf(all) }, io);
  else if (!options.quiet && result && map)
    io.out(`${measureText(result, map.middleC)}${written?.value ?? ''}`);
  return show(all, options, io);
}

async function measure(
  file: string,
  map: ArticulationMap,
  options: MeasureOptions,
  io: Io,
): Promise<Outcome<MeasureResult>> {
  const progress = shareLine(io, options);
  const onProgress = (share: number) => progress.step(share, 'measuring');
  return readSound(file, io, async (open): Promise<Outcome<MeasureResult>> => {
    return { value: await measureBounce(probedLibrary(map), open, { onProgress }), diagnostics: [] };
  }).finally(progress.end);
}

/** Puts the values into the map's file; its value says which. */
async function write(
  file: string,
  map: ArticulationMap,
  result: MeasureResult,
  options: MeasureOptions,
  io: Io,
): Promise<Outcome<string>> {
  if (result.bounce.clicks === 'none') return { value: undefined, diagnostics: [noClicks(file)] };
  const { value: bytes, diagnostics } = await readInput(file, options.maxMap ?? limits.map, io);
  if (!bytes) return { value: undefined, diagnostics };
  const before = new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
  const { text, written, notWritten } = writeMeasured(before, result, map.middleC);
  const failures = text === before ? [] : putOutputs([{ path: file, content: text }], io);
  const left = notWritten.map(({ path, text: value, why }): Diagnostic => {
    const message = `${path.join('.')}: ${value} was not written: ${why}`;
    return diagnostic('not-written', { kind: 'file', file }, message, 'write it there yourself');
  });
  const told = written.map(({ path, text: value }) => `  ${escapeText(`${path.join('.')}: ${value}`)}\n`);
  const value = failures.some(isError) ? '' : `\nwritten into ${escapeText(file)}:\n${told.join('')}`;
  return { value, diagnostics: [...left, ...failures] };
}

/** It may be the bounce of another map, or of this one as it was before. */
function noClicks(file: string): Diagnostic {
  return diagnostic(
    'no-clicks',
    { kind: 'file', file },
    "nothing was written: the clicks of this map's probe are not in the bounce",
    'lay the click sound on bar 1 and bounce it with the probe that was made from this very map',
  );
}
