import type { Song } from '../../midi/index.js';
import type { Violation } from '../violations.js';

/** changed-file: what concerns the file as a whole, and is not the same. */
export function fileChanges(input: Song, output: Song): readonly Violation[] {
  const messages = [
    ...(input.format === output.format
      ? []
      : [`the file was of format ${input.format}, and is of format ${output.format}`]),
    ...(JSON.stringify(input.division) === JSON.stringify(output.division)
      ? []
      : ['the time division is another']),
    ...(input.tracks.length === output.tracks.length
      ? []
      : [`the file had ${input.tracks.length} tracks, and has ${output.tracks.length}`]),
    ...(haveSameChunks(input, output) ? [] : ['the chunks that are no tracks are not the same']),
  ];
  return messages.map((message) => ({
    kind: 'changed-file',
    message,
    track: null,
    channel: null,
    tick: 0,
    bar: null,
    beat: null,
    pitch: null,
  }));
}

/** Whether both have the same chunks in the same order; of tracks only where they stand. */
function haveSameChunks({ chunks }: Song, { chunks: others }: Song): boolean {
  return (
    chunks.length === others.length &&
    chunks.every((chunk, index) => {
      const other = others[index];
      if (chunk.kind === 'track' || other?.kind !== 'other') return chunk.kind === other?.kind;
      return (
        chunk.bytes.length === other.bytes.length && chunk.bytes.every((byte, at) => byte === other.bytes[at])
      );
    })
  );
}
