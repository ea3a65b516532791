import { failed, found, type Result } from './problem.js';
import type { ByteSink, WavSink } from './wav.js';

/**
 * Quality of Vorbis, −1 to 10. 2 makes about 80 kbit/s of an orchestra: 0.6 MB a minute, 0.8 MB as base64 in a page.
 */
export const oggQuality = 2;

/**
 * Writes a sound as Ogg Vorbis, a small file for a page. The encoder is an optional dependency, read when this is asked
 * for. Vorbis is taken and not MP3, since the streams of this encoder begin at their first sample: its MP3 is 23 to 35 ms
 * late in a browser, and a line that follows would be early.
 */
export async function oggSink(write: ByteSink): Promise<Result<WavSink>> {
  const encoder = await readEncoder();
  if (!encoder) {
    const hint = 'npm install wasm-media-encoders';
    return failed('no-library', 'the package wasm-media-encoders, which compresses the sound, is not there', {
      hint,
    });
  }
  return found({
    begin({ sampleRate }) {
      encoder.configure({ sampleRate, channels: 2, vbrQuality: oggQuality, oggSerialNo: 1 });
    },
    // what it gives is its own memory, and is used again
    write: ({ left, right }) => write(encoder.encode([left, right]).slice()),
    end: () => write(encoder.finalize().slice()),
  });
}

async function readEncoder() {
  try {
    const { createOggEncoder } = await import('wasm-media-encoders');
    return await createOggEncoder();
  } catch {
    return undefined;
  }
}
