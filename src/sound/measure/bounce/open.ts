import { openWav, requireStereo, type Wav } from '../../signal/index.js';

/** Reads a sound from its beginning; asked for more than once. */
export type OpenSound = () => AsyncIterable<Uint8Array>;

/**
 * Opens a bounce.
 *
 * @throws WavError where it is no stereo WAV file that can be read
 */
export async function openStereo(open: OpenSound): Promise<Wav> {
  const wav = await openWav(open());
  try {
    requireStereo(wav.format);
    return wav;
  } catch (error) {
    await wav.close();
    throw error;
  }
}
