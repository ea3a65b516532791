import { open } from 'node:fs/promises';
import { isCue } from '../cue/index.js';
import { isCueFile } from './cue-name.js';
import { UsageError } from './io.js';

/** What `compare` was given, of which the kind of comparison is told. */
export interface ComparedWords {
  readonly a: string | undefined;
  readonly b: string | undefined;
  readonly inputs: readonly string[];
}

/** The options by which kinds of comparison differ. */
export interface ComparedOptions {
  readonly map: readonly string[];
  readonly part: readonly string[];
  readonly music?: string;
}

/**
 * Whether two takes are compared, or two cues, and not two maps: cues say in themselves what they are; recordings are two
 * takes where --map says what plays them.
 *
 * @throws UsageError where the words do not go together
 */
export async function areTakes(words: ComparedWords, options: ComparedOptions): Promise<boolean> {
  const { a, b, inputs } = words;
  const isCue = await isCueHere(a);
  const isOther = await isCueHere(b);
  if (isOther && !isCue) throw new UsageError('name the cue first, then the take that it is compared with');
  if (isCue) refuseForCues(words, isOther);
  else if (options.part.length > 0) throw new UsageError('--part names a part of a cue');
  else if (options.map.length > 0) refuseForRecordings(words);
  else {
    const areMusic = [a, b].every((file) => file !== undefined && isMusicName(file));
    if (!areMusic || inputs.length > 0) return false;
    throw new UsageError(
      'say which map plays both takes: --map MAP.yaml, or TRACK=MAP.yaml for each track of several',
    );
  }
  if (options.music !== undefined) throw new UsageError('--music goes with --since');
  return true;
}

function refuseForCues({ b, inputs }: ComparedWords, isOther: boolean | undefined): void {
  if (b === undefined) throw new UsageError('name two cues, or a cue and another take of its music');
  if (inputs.length > 0)
    throw new UsageError('two cues are compared, or a cue and a take: leave the others out');
  if (isCueFile(b) && isOther === false)
    throw new UsageError('a cue is compared with another cue, or with another take of its music');
}

function refuseForRecordings({ a, b, inputs }: ComparedWords): void {
  if (a === undefined || b === undefined || inputs.length > 0)
    throw new UsageError('--map goes with two recordings: TAKE1.mid TAKE2.mid --map MAP.yaml');
  if (isCueFile(a) || isCueFile(b))
    throw new UsageError('two maps are compared without --map; with it, two recordings are');
}

function isMusicName(file: string): boolean {
  return /\.(midi?|musicxml|mxl|mei)$/iu.test(file);
}

/** Whether a file says to be a cue; undefined where it cannot be read, which is told by who reads it whole. */
async function isCueHere(file: string | undefined): Promise<boolean | undefined> {
  if (file === undefined || !isCueFile(file)) return false;
  try {
    const handle = await open(file);
    try {
      if (!(await handle.stat()).isFile()) return false;
      const { buffer, bytesRead } = await handle.read(new Uint8Array(1 << 16), 0, 1 << 16, 0);
      return isCue(buffer.subarray(0, bytesRead));
    } finally {
      await handle.close();
    }
  } catch {
    return undefined;
  }
}
