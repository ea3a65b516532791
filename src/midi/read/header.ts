import type { Division, Song } from '../song.js';
import { asciiAt, uint16, uint32 } from './numbers.js';
import { errorAt, type Problem } from './problem.js';

/** What the MThd chunk says. */
export interface Header {
  readonly format: Song['format'];
  /** How many tracks it promises. */
  readonly trackCount: number;
  readonly division: Division;
}

/** A header, or what is wrong with it. */
export interface HeaderRead {
  readonly header: Header | undefined;
  /** The offset behind the chunk; undefined where it cannot be told, so that nothing more can be read. */
  readonly end: number | undefined;
  readonly problems: readonly Problem[];
}

/**
 * Reads the MThd chunk: format, number of tracks, division. A chunk of more than six bytes is allowed by the
 * standard, and what it has more is passed over (Standard MIDI File 1.0).
 */
export function readHeader(bytes: Uint8Array): HeaderRead {
  if (!isMidi(bytes)) return failed(notMidi(bytes));
  if (bytes.length < 8) return failed(cutShort(bytes, 'a length'));
  const length = uint32(bytes, 4);
  const end = 8 + length;
  if (length < 6)
    return failed(
      errorAt(
        4,
        'midi-header',
        `the header chunk is ${length} bytes long`,
        'it has at least 6 bytes: format, tracks, division',
      ),
      end <= bytes.length ? end : undefined,
    );
  if (end > bytes.length) return failed(cutShort(bytes, `${length} bytes`));
  const format = formatOf(uint16(bytes, 8));
  const division = divisionOf(uint16(bytes, 12));
  const problems = [format, division].flatMap((part) => ('code' in part ? [part] : []));
  if ('code' in format || 'code' in division) return { header: undefined, end, problems };
  return { header: { ...format, trackCount: uint16(bytes, 10), division }, end, problems };
}

function failed(problem: Problem, end?: number): HeaderRead {
  return { header: undefined, end, problems: [problem] };
}

function notMidi(bytes: Uint8Array): Problem {
  const message =
    bytes.length === 0 ? 'the file is empty' : 'the file does not begin with a MIDI header chunk (MThd)';
  const riff = bytes.length >= 4 && asciiAt(bytes, 0) === 'RIFF';
  const hint = riff
    ? 'it is a RIFF file: export the music as a Standard MIDI File (.mid)'
    : 'give a Standard MIDI File (.mid)';
  return errorAt(0, 'not-midi', message, hint);
}

function cutShort(bytes: Uint8Array, wanted: string): Problem {
  return errorAt(
    0,
    'midi-truncated',
    `the header chunk should have ${wanted} after its name, but the file ends after ${bytes.length} bytes`,
    'the file was cut short: copy or export it again',
  );
}

function formatOf(format: number): { readonly format: Song['format'] } | Problem {
  if (format === 0 || format === 1 || format === 2) return { format };
  return errorAt(
    8,
    'midi-header',
    `the header names format ${format}`,
    'Standard MIDI Files have format 0, 1 or 2',
  );
}

/** Bit 15 chooses: ticks of a quarter note, or minus the frames of a second and the ticks of a frame. */
function divisionOf(word: number): Division | Problem {
  if (word === 0)
    return errorAt(
      12,
      'midi-header',
      'the header counts 0 ticks to a quarter note',
      'there is at least 1, commonly 96 to 960',
    );
  if (word < 0x8000) return { kind: 'ppq', ppq: word };
  const framesPerSecond = 0x100 - (word >> 8);
  const ticksPerFrame = word & 0xff;
  if (![24, 25, 29, 30].includes(framesPerSecond))
    return errorAt(
      12,
      'midi-header',
      `the header counts ${framesPerSecond} frames a second`,
      'SMPTE has 24, 25, 29 or 30',
    );
  if (ticksPerFrame === 0)
    return errorAt(
      13,
      'midi-header',
      'the header counts 0 ticks to a frame',
      'there is at least 1, commonly 4, 40, 80 or 100',
    );
  return { kind: 'smpte', framesPerSecond, ticksPerFrame };
}

/** Whether bytes begin as a Standard MIDI File does: with a header chunk. */
export function isMidi(bytes: Uint8Array): boolean {
  return bytes.length >= 4 && asciiAt(bytes, 0) === 'MThd';
}
