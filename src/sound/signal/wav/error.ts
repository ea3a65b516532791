/** What can be wrong with a sound file. */
export const wavCodes = {
  'not-wav': 'The file is not a WAV file, or its header is damaged.',
  'wav-format': 'A WAV file of a kind that is not read: compressed sound, or an unusual width or rate.',
  'wav-channels': 'A sound file that is not stereo.',
  'wav-truncated': 'The sound file ends before its sound begins.',
} as const;

export type WavCode = keyof typeof wavCodes;

/** A sound file that cannot be read. The message says what was found, the hint what would be right. */
export class WavError extends Error {
  override readonly name = 'WavError';
  constructor(
    readonly code: WavCode,
    /** From the beginning of the file. Unit: bytes. */
    readonly offset: number,
    message: string,
    readonly hint: string,
  ) {
    super(message);
  }
}
