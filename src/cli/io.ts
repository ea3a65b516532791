/** What a command may touch besides files: its streams and its surroundings. */
export interface Io {
  /** Reads standard input, once; ends soon after `limit` bytes, with more than those. */
  readonly stdin: (limit: number) => Promise<Uint8Array>;
  /** @throws CannotWrite where standard output takes no more, as on a full disk; a reader who went away is no error */
  readonly out: (data: string | Uint8Array) => void;
  readonly err: (text: string) => void;
  /** Whether messages may be coloured. */
  readonly color: boolean;
  /** Whether standard output is a terminal, which bytes that are no text would upset. */
  readonly isOutTerminal?: boolean;
  /** Shows a line in place of the one before, where standard error is a terminal; an empty one clears it. */
  readonly progress?: (line: string) => void;
  /** Is told of each file just before it is read. */
  readonly opening?: (path: string) => void;
  /** Is told of each file that was read, whole. */
  readonly read?: (path: string, bytes: Uint8Array) => void;
  /** Gives the bytes that are taken for a file's; undefined where the file itself is read. */
  readonly instead?: (path: string) => Uint8Array | undefined;
  /** Is told of each thing once it is done, where --verbose asks for that. */
  readonly note?: ((done: string) => void) | undefined;
  /** Ends what would go on until somebody ends it. */
  readonly ends?: AbortSignal;
}

/** Exit statuses: done; the input or a map has errors, or what was compared differs; the command line is wrong. */
export const exit = { done: 0, errors: 1, usage: 2 } as const;

/** A command line that cannot be carried out as it stands. Shown without a stack, exit status 2. */
export class UsageError extends Error {
  /** @param hint what would be right, and the nearest valid name where there is one */
  constructor(
    message: string,
    readonly hint?: string,
  ) {
    super(message);
  }
}
