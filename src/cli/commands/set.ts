import { type SymbolsText, setSong } from '../../arrange/index.js';
import { diagnostic, type Outcome, plural } from '../../diagnostics/index.js';
import { isMidi, type Song } from '../../midi/index.js';
import { isScore } from '../../score/index.js';
import type { RollOrder } from '../../timing/index.js';
import { type CommonOptions, limits, loadSong, songOf } from '../context.js';
import { readInput } from '../files/read.js';
import { type Io, UsageError } from '../io.js';
import { deliverFile, newFilePath } from '../new-file.js';
import { trackLines } from '../track-lines.js';

export interface SetOptions extends CommonOptions {
  /** The rhythm. */
  readonly to: string;
  readonly output?: string;
  /** A standard deviation in ms; true for the usual one. */
  readonly roll?: number | true;
  readonly rollOrder?: RollOrder;
  readonly seed?: number;
}

/** `keyslip set`: chords strike where a recorded rhythm does. */
export async function setCommand(chords: string, options: SetOptions, io: Io): Promise<number> {
  const output = newFilePath(options.output, [chords, options.to]);
  const roll = rollOf(options);
  const harmony = await loadChords(chords, options, io);
  const rhythm = await loadSong(options.to, options, io);
  const read = [...harmony.diagnostics, ...rhythm.diagnostics];
  const set = harmony.value && rhythm.value && setSong(rhythm.value, harmony.value, roll ? { roll } : {});
  const { bytes, diagnostics = [], strokes = 0, tracks = [] } = set ?? {};
  const lines = [plural(strokes, 'stroke'), ...trackLines(tracks)];
  const json = { rhythm: options.to, strokes, tracks };
  const made = { input: chords, output, bytes, diagnostics: [...read, ...diagnostics], lines, json };
  return deliverFile(made, options, io);
}

function rollOf({ roll, rollOrder, seed }: SetOptions) {
  if (roll === undefined) {
    if (rollOrder !== undefined || seed !== undefined)
      throw new UsageError('--roll-order and --seed say how --roll spreads chords: give --roll too');
    return undefined;
  }
  const order = rollOrder ?? 'unordered';
  return { order, ...(roll === true ? {} : { sdMs: roll }), ...(seed === undefined ? {} : { seed }) };
}

/** Chords of a sketch, or symbols in a text: whichever the file is by its content. */
async function loadChords(
  file: string,
  options: CommonOptions,
  io: Io,
): Promise<Outcome<Song | SymbolsText>> {
  const { value: bytes, diagnostics } = await readInput(file, options.maxMidi ?? limits.midi, io);
  if (!bytes) return { value: undefined, diagnostics };
  if (isMidi(bytes) || isScore(bytes)) return songOf(bytes, file, options);
  const symbols = bytes.length <= limits.map ? textOf(bytes) : undefined;
  if (symbols !== undefined) return { value: { file, symbols }, diagnostics: [] };
  const found = diagnostic(
    'unknown-chord',
    { kind: 'file', file },
    'the file is neither MIDI, nor a score, nor a text of chord symbols',
    'give a sketch, or symbols in UTF-8: | Dm | Gm/B♭ C7 | F |',
  );
  return { value: undefined, diagnostics: [found] };
}

function textOf(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return undefined;
  }
}
