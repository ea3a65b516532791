import { failed, found, type Result } from '../problem.js';
import { type Chunk, chunkNamed } from './riff.js';
import { checkZones, type Records } from './zones.js';

/** The lists of a SoundFont and the sizes of their records (SoundFont 2.04, 7.1–7.10; from memory). Unit: bytes. */
const recordSizes = {
  phdr: 38,
  pbag: 4,
  pmod: 10,
  pgen: 4,
  inst: 22,
  ibag: 4,
  imod: 10,
  igen: 4,
  shdr: 46,
} as const;

type RecordName = keyof typeof recordSizes;

/**
 * How much sound the headers may point at, in sizes of the sample chunk: some banks let headers share samples, but one
 * in which each of thousands points at all of it would be copied as often.
 */
const mostSharing = 4;

/**
 * Checks what a SoundFont (version 2, or 3 with compressed samples) needs before it is unfolded: that its lists are there
 * and whole, that indices rise and lead to records, and that neither zones nor samples multiply beyond measure. Samples
 * and generators are looked at when a note asks for them.
 */
export function checkSoundFont(bytes: Uint8Array, riff: Chunk): Result<true> {
  const sdta = chunkNamed(riff.chunks, 'sdta');
  const smpl = sdta && chunkNamed(sdta.chunks, 'smpl');
  const pdta = chunkNamed(riff.chunks, 'pdta');
  if (!chunkNamed(riff.chunks, 'INFO')) return lacks('INFO');
  if (!smpl) return lacks('smpl');
  if (!pdta) return lacks('pdta');
  const names = Object.keys(recordSizes) as RecordName[];
  // the library takes what comes for what it expects
  if (riff.chunks.map(({ list }) => list).join() !== 'INFO,sdta,pdta')
    return failed('bank-structure', 'the bank has other lists than INFO, sdta and pdta, in that order');
  if (sdta?.chunks[0] !== smpl) return failed('bank-structure', 'the samples do not come first in "sdta"');
  if (pdta.chunks.map(({ id }) => id).join() !== names.join())
    return failed('bank-structure', `"pdta" has other lists than ${names.join(', ')}, in that order`, {
      offset: pdta.start,
    });
  const records = {} as Record<RecordName, Records>;
  for (const [index, name] of names.entries()) {
    const chunk = pdta.chunks[index];
    const read = chunk && recordsIn(bytes, chunk, recordSizes[name]);
    if (!read) return lacks(name);
    if (!read.ok) return read;
    records[name] = read.value;
  }
  const { shdr, phdr, pbag, pgen, pmod, inst, ibag, igen, imod } = records;
  const samples = checkSamples(shdr, bytes.length, smpl.end - smpl.start);
  if (!samples.ok) return samples;
  return checkZones({
    presets: { heads: phdr, bagAt: 24, bags: pbag, generators: pgen, modulators: pmod },
    instruments: { heads: inst, bagAt: 20, bags: ibag, generators: igen, modulators: imod },
  });
}

function lacks(name: string) {
  return failed('bank-structure', `the bank has no "${name}"`, {
    hint: 'a SoundFont has the lists INFO, sdta and pdta',
  });
}

function recordsIn(bytes: Uint8Array, { id, start, end }: Chunk, size: number): Result<Records> {
  const length = end - start;
  if (length % size !== 0 || length < size)
    return failed('bank-structure', `"${id}" has ${length} bytes, which is no number of records of ${size}`, {
      offset: start,
    });
  const view = new DataView(bytes.buffer, bytes.byteOffset + start, length);
  return found({ name: id, view, size, count: length / size, offset: start });
}

/** The first and last 32-bit words of a sample header are counted in samples, or in bytes where it is compressed. */
function checkSamples({ view, size, count, offset }: Records, file: number, smpl: number): Result<true> {
  let total = 0;
  for (let index = 0; index < count - 1; index += 1) {
    const at = index * size;
    const from = view.getUint32(at + 20, true);
    const to = view.getUint32(at + 24, true);
    total += Math.max(0, Math.min(file, to * 2) - Math.min(file, from * 2));
    if (total > mostSharing * smpl + 65_536)
      return failed('bank-too-large', "the bank's samples are together many times as long as its data", {
        offset: offset + at,
      });
  }
  return found(true);
}
