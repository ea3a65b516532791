// Bytes of a Standard MIDI File become a song.
import { type Outcome, plural } from '../../diagnostics/index.js';
import type { Song } from '../song.js';
import { trackOf } from '../track.js';
import { type ChunksRead, splitChunks } from './chunks.js';
import { type EventsRead, readEvents } from './events.js';
import { type Header, readHeader } from './header.js';
import { trackName } from './name.js';
import { diagnosticOf, errorAt, type Problem, warningAt } from './problem.js';
import { meaningless } from './timing.js';

/** How much is read before a file is refused. */
export { isMidi } from './header.js';
export { decodedText, trackName } from './name.js';

export interface MidiLimits {
  /** 64 MiB where it is not given. */
  readonly maxBytes?: number;
  /** Events of all tracks together; 4,000,000 where it is not given: a small file can hold more than memory can. */
  readonly maxEvents?: number;
}

const mebibyte = 1024 * 1024;

/** A track chunk, read. */
interface ReadChunk {
  readonly track: number;
  /** Where its body stands in the file. */
  readonly offset: number;
  readonly read: EventsRead;
}

/**
 * Reads a Standard MIDI File of format 0, 1 or 2. Nothing is lost: the song keeps views of the given bytes, which
 * must not be changed afterwards.
 *
 * What the standard lets pass is read: longer headers, unknown chunks, running status. All errors of all tracks are
 * reported at once, each with its byte offset: not-midi, midi-header, midi-truncated, midi-event, no-tracks and
 * midi-too-large. The warnings track-count, midi-tempo, midi-header (several tracks in format 0) and midi-truncated
 * (a few bytes behind the last chunk) stand beside a song.
 *
 * @param file the file's name, for messages
 */
export function readMidi(bytes: Uint8Array, file: string, limits: MidiLimits = {}): Outcome<Song> {
  const { song, problems } = read(bytes, file, limits);
  return { value: song, diagnostics: problems.map((problem) => diagnosticOf(problem, file)) };
}

interface Read {
  readonly song: Song | undefined;
  readonly problems: readonly Problem[];
}

function read(
  bytes: Uint8Array,
  file: string,
  { maxBytes = 64 * mebibyte, maxEvents = 4_000_000 }: MidiLimits,
): Read {
  if (bytes.length > maxBytes) return { song: undefined, problems: [tooManyBytes(bytes.length, maxBytes)] };
  const { header, end, problems: headerProblems } = readHeader(bytes);
  if (end === undefined) return { song: undefined, problems: headerProblems };
  const { chunks, problems: chunkProblems } = splitChunks(bytes, end);
  const tracks = readTracks(chunks, maxEvents);
  const isWhole = !chunkProblems.some(({ severity }) => severity === 'error');
  const problems = [
    ...headerProblems,
    ...(isWhole ? trackProblems(header, tracks.length, end) : []),
    ...tracks.flatMap(faults),
    ...chunkProblems,
    ...tooManyEvents(tracks, maxEvents),
  ];
  if (!header || problems.some(({ severity }) => severity === 'error')) return { song: undefined, problems };
  const timing = tracks.flatMap(({ track, offset, read }) => meaningless(track, read.events, offset));
  const { format, division } = header;
  const kept = chunks.map(({ offset: _, ...chunk }) => chunk);
  return {
    song: {
      file,
      format,
      division,
      header: bytes.subarray(0, end),
      chunks: kept,
      tracks: tracks.map(({ track, read: { events } }) => trackOf(track, trackName(events), events)),
    },
    problems: [...problems, ...timing],
  };
}

function readTracks(chunks: ChunksRead['chunks'], maxEvents: number): readonly ReadChunk[] {
  let left = maxEvents;
  return chunks.flatMap((chunk): readonly ReadChunk[] => {
    if (chunk.kind === 'other') return [];
    const offset = chunk.offset + 8;
    const read = readEvents(chunk.bytes.subarray(8), offset, left);
    left = Math.max(0, left - read.count);
    return [{ track: chunk.track, offset, read }];
  });
}

function faults({ track, read: { fault } }: ReadChunk): readonly Problem[] {
  return fault ? [{ ...fault, message: `in track ${track}, ${fault.message}` }] : [];
}

function trackProblems(header: Header | undefined, found: number, end: number): readonly Problem[] {
  if (found === 0)
    return [
      errorAt(end, 'no-tracks', 'the file has no track chunk (MTrk)', 'export it again, with its tracks'),
    ];
  if (!header) return [];
  const problems: Problem[] = [];
  if (header.trackCount !== found) {
    const message = `the header names ${count(header.trackCount)}, but the file has ${found}`;
    problems.push(warningAt(10, 'track-count', message, 'the tracks that are there are read'));
  }
  if (header.format === 0 && found > 1) {
    const message = `the header names format 0, which has one track, but the file has ${found}`;
    problems.push(warningAt(8, 'midi-header', message, 'it is read like format 1: the tracks play together'));
  }
  return problems;
}

function count(tracks: number): string {
  return plural(tracks, 'track');
}

function tooManyBytes(bytes: number, limit: number): Problem {
  const size = (amount: number) => `${Number((amount / mebibyte).toFixed(1))} MiB`;
  const [found, most] =
    bytes - limit < mebibyte / 10 ? [`${bytes} bytes`, `${limit} bytes`] : [size(bytes), size(limit)];
  return {
    code: 'midi-too-large',
    severity: 'error',
    message: `the file has at least ${found}, and the limit is ${most}`,
    hint: '--max-midi MB raises the limit; see that this is a MIDI file at all',
  };
}

function tooManyEvents(tracks: readonly ReadChunk[], limit: number): readonly Problem[] {
  const events = tracks.reduce((sum, { read }) => sum + read.count, 0);
  if (events <= limit) return [];
  const message = `the file has ${events} events, and the limit is ${limit}`;
  return [
    { code: 'midi-too-large', severity: 'error', message, hint: '--max-events NUMBER raises the limit' },
  ];
}
