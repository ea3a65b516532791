/** Frames from `from` up to, not including, `to`. */
export interface FrameRange {
  readonly from: number;
  readonly to: number;
}

/** A piece of a sound: each channel's samples, −1 … 1. */
export interface Slice {
  /** The frame of its first sample. */
  readonly from: number;
  readonly channels: readonly Float32Array[];
}

/** Pieces that are being filled. */
interface Filling {
  isDone(): boolean;
  /** The pieces that have frames before `end` and are not whole. */
  open(end: number): readonly { readonly range: FrameRange; readonly into: readonly Float32Array[] }[];
  /** The pieces that are whole with the frames before `end`; each is given once. */
  whole(end: number): Iterable<Slice>;
  /** What is left when the sound ends: cut there. */
  rest(): Iterable<Slice>;
}

/** Keeps the pieces of a sound that are asked for, no longer than until each is whole. */
export function fillingOf(ranges: readonly FrameRange[], channels: number): Filling {
  let filling: { readonly range: FrameRange; readonly into: Float32Array[] }[] = [];
  let next = 0;
  let reached = 0;
  const take = (range: FrameRange) => {
    const into = Array.from({ length: channels }, () => new Float32Array(Math.max(0, range.to - range.from)));
    filling.push({ range, into });
  };
  return {
    isDone: () => next === ranges.length && filling.length === 0,
    open(end) {
      reached = end;
      for (let range = ranges[next]; range && range.from < end; range = ranges[++next]) take(range);
      return filling;
    },
    *whole(end) {
      const done = filling.filter(({ range }) => range.to <= end);
      if (done.length === 0) return;
      filling = filling.filter(({ range }) => range.to > end);
      for (const { range, into } of done) yield { from: range.from, channels: into };
    },
    *rest() {
      for (const { range, into } of filling) {
        const length = Math.max(0, reached - range.from);
        yield { from: range.from, channels: into.map((samples) => samples.subarray(0, length)) };
      }
      for (const { from } of ranges.slice(next))
        yield { from, channels: Array.from({ length: channels }, () => new Float32Array(0)) };
      filling = [];
      next = ranges.length;
    },
  };
}
