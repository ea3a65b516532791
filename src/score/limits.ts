/** How much of a score is read before it is refused. */
export interface ScoreLimits {
  /** Of the file, and of each file packed in it, unpacked. 64 MiB where it is not given. */
  readonly maxBytes?: number;
  /** Elements of the XML tree; 4,000,000 where it is not given. */
  readonly maxElements?: number;
  /** Elements within elements; 200 where it is not given (MusicXML and MEI need fewer than 30). */
  readonly maxDepth?: number;
  /** Notes with all repeats played out; 1,000,000 where it is not given. */
  readonly maxNotes?: number;
}

export const defaultLimits: Required<ScoreLimits> = {
  maxBytes: 64 * 1024 * 1024,
  maxElements: 4_000_000,
  maxDepth: 200,
  maxNotes: 1_000_000,
};
