// Banks of sounds: what is checked before a library is given their bytes, and where systems have them.
import { failed, found, type Result } from '../problem.js';
import { checkDls } from './dls.js';
import { readRiff } from './riff.js';
import { checkSoundFont } from './soundfont.js';

export { mostSamples } from './ogg.js';
export { bankEndings, bankPlaces, preferredBanks } from './places.js';

/** Banks of this kind are understood. */
export type BankKind = 'soundfont' | 'dls';

/** The largest bank that is read. The library holds it twice. Unit: bytes. */
export const bankLimit = 2 ** 30;

/**
 * Checks a bank's structure and sizes before a library unfolds it. What passes is bounded in time and memory, but its
 * sounds may still be wrong: those are looked at when a note asks for them.
 *
 * @param bytes of an sf2, sf3 or dls file
 */
export function checkBank(bytes: Uint8Array): Result<BankKind> {
  if (bytes.length > bankLimit)
    return failed('bank-too-large', `the bank has ${bytes.length} bytes, more than ${bankLimit}`);
  const begin = String.fromCharCode(...bytes.subarray(0, 4));
  if (begin !== 'RIFF')
    return failed('bank-unknown', 'the bank does not begin with "RIFF"', {
      hint: 'a SoundFont (.sf2, .sf3) or a DLS bank (.dls) is needed',
      offset: 0,
    });
  const riff = readRiff(bytes);
  if (!riff.ok) return riff;
  if (riff.value.list === 'sfbk') {
    const checked = checkSoundFont(bytes, riff.value);
    return checked.ok ? found('soundfont') : checked;
  }
  if (riff.value.list === 'DLS ') {
    const checked = checkDls(bytes, riff.value);
    return checked.ok ? found('dls') : checked;
  }
  return failed('bank-unknown', `the file is a RIFF file of type "${riff.value.list}", and no bank`, {
    hint: 'a SoundFont is of type "sfbk", a DLS bank of type "DLS "',
    offset: 8,
  });
}
