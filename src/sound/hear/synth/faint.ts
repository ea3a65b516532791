/**
 * A voice that was let go and has faded to less than this is ended: 80 dB below a recording at full scale, and 4 dB more
 * by the library's own gain. Banks let voices fade to −100 dB, often for seconds; of 16 busy parts these are most of the
 * voices, and of the time.
 */
export const faintest = 1e-4;

/** What matters here of the library's voices. It keeps their list private; a test finds out if it keeps it elsewhere. */
interface LibraryVoice {
  isActive: boolean;
  readonly isInRelease: boolean;
  readonly volEnv: { readonly outputGain: number };
}

/** Ends voices that nobody hears any more; nothing where the library has its voices elsewhere. */
export function faintEnder(processor: object): () => void {
  const core: unknown = Reflect.get(processor, 'synthCore');
  const voices: unknown = typeof core === 'object' && core !== null ? Reflect.get(core, 'voices') : undefined;
  if (!isVoices(voices)) return () => {};
  return () => {
    for (const voice of voices)
      if (voice.isActive && voice.isInRelease && voice.volEnv.outputGain < faintest) voice.isActive = false;
  };
}

function isVoices(voices: unknown): voices is readonly LibraryVoice[] {
  if (!Array.isArray(voices)) return false;
  const [first] = voices as readonly (Partial<LibraryVoice> | undefined)[];
  return typeof first?.isInRelease === 'boolean' && typeof first.volEnv?.outputGain === 'number';
}
