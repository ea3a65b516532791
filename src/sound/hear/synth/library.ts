import { failed, found, type Result } from '../problem.js';

/** The library that makes the sound; a type only, so that nothing is read before it is asked for. */
export type Library = typeof import('spessasynth_core');

/**
 * Reads the library, which is an optional dependency. It writes nothing to the console then.
 */
export async function readLibrary(): Promise<Result<Library>> {
  try {
    const library = await import('spessasynth_core');
    library.SpessaLog.setLogLevel(false, false, false);
    return found(library);
  } catch {
    return failed('no-library', 'the package spessasynth_core, which makes the sound, is not installed', {
      hint: 'npm install spessasynth_core',
    });
  }
}
