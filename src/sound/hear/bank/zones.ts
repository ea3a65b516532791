import { failed, found, type HearProblem, type Result } from '../problem.js';

/** Records of one size that stand one behind the other; the last one only ends the list. */
export interface Records {
  readonly name: string;
  readonly view: DataView;
  readonly size: number;
  /** The last one included. */
  readonly count: number;
  /** The byte of the file at which they begin. */
  readonly offset: number;
}

/** Heads with zones, zones with generators and modulators: presets and instruments are built alike. */
export interface Layer {
  readonly heads: Records;
  /** Where in a head the index of its first zone stands. */
  readonly bagAt: number;
  readonly bags: Records;
  readonly generators: Records;
  readonly modulators: Records;
}

/** Generator 41 of a preset's zone names an instrument (SoundFont 2.04, 8.1.2; from memory). */
const instrumentGenerator = 41;

/** So many pairs of a preset's zone and an instrument's are looked at for each note. */
const mostPairs = 20_000;
/** Modulators of a zone are compared each with each. */
const mostModulators = 256;
/** Modulators and generators of zones without instrument or sample add up over their head. */
const mostInHead = 65_536;

/** Checks that indices rise and lead to records, and that nothing multiplies beyond measure. */
export function checkZones({
  presets,
  instruments,
}: {
  readonly presets: Layer;
  readonly instruments: Layer;
}): Result<true> {
  for (const layer of [instruments, presets]) {
    const problem = checkIndices(layer) ?? checkModulators(layer);
    if (problem) return { ok: false, problem };
  }
  const zones = zonesOf(instruments);
  const heads = zonesOf(presets);
  for (const [index, [from, to]] of heads.entries()) {
    let pairs = 0;
    for (let bag = from; bag < to; bag += 1) {
      const [first = 0, behind = 0] = zones[instrumentOf(presets, bag)] ?? [];
      pairs += 1 + behind - first;
    }
    if (pairs > mostPairs)
      return failed(
        'bank-too-large',
        `preset ${index + 1} of the bank has ${pairs} zones, too many to play`,
        {
          offset: presets.heads.offset + index * presets.heads.size,
        },
      );
  }
  return found(true);
}

function checkIndices({ heads, bagAt, bags, generators, modulators }: Layer): HearProblem | undefined {
  return (
    rising(heads, bagAt, bags) ?? rising(bags, 0, generators) ?? rising(bags, 2, modulators) ?? undefined
  );
}

/** Indices at a place of records never fall, and none leads behind the records that they are of. */
function rising(records: Records, at: number, into: Records): HearProblem | undefined {
  let before = 0;
  for (let index = 0; index < records.count; index += 1) {
    const value = indexAt(records, index, at);
    if (value < before || value > into.count - 1)
      return {
        code: 'bank-structure',
        message: `record ${index + 1} of "${records.name}" leads to record ${value + 1} of "${into.name}", which has ${into.count}`,
        offset: records.offset + index * records.size + at,
      };
    before = value;
  }
  return undefined;
}

function checkModulators({ heads, bagAt, bags }: Layer): HearProblem | undefined {
  for (let bag = 0; bag < bags.count - 1; bag += 1)
    if (indexAt(bags, bag + 1, 2) - indexAt(bags, bag, 2) > mostModulators)
      return {
        code: 'bank-too-large',
        message: `zone ${bag + 1} of "${bags.name}" has more than ${mostModulators} modulators`,
        offset: bags.offset + bag * bags.size,
      };
  for (let head = 0; head < heads.count - 1; head += 1) {
    const [from, to] = [indexAt(heads, head, bagAt), indexAt(heads, head + 1, bagAt)];
    if (indexAt(bags, to, 2) - indexAt(bags, from, 2) > mostInHead)
      return {
        code: 'bank-too-large',
        message: `record ${head + 1} of "${heads.name}" has more modulators than can be played`,
        offset: heads.offset + head * heads.size,
      };
  }
  return undefined;
}

/** For each head, its zones: the first, and the one behind the last. */
function zonesOf({ heads, bagAt }: Layer): readonly (readonly [from: number, to: number])[] {
  return Array.from({ length: heads.count - 1 }, (_, head) => [
    indexAt(heads, head, bagAt),
    indexAt(heads, head + 1, bagAt),
  ]);
}

/** The instrument that a preset's zone names; −1 where it names none. */
function instrumentOf({ bags, generators }: Layer, bag: number): number {
  const [from, to] = [indexAt(bags, bag, 0), indexAt(bags, bag + 1, 0)];
  for (let index = to - 1; index >= from; index -= 1)
    if (indexAt(generators, index, 0) === instrumentGenerator) return indexAt(generators, index, 2);
  return -1;
}

function indexAt({ view, size }: Records, index: number, at: number): number {
  return view.getUint16(index * size + at, true);
}
