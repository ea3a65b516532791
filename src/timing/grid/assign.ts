interface Block {
  sum: number;
  count: number;
}

/**
 * Gives each onset a whole place of its own so that the sum of squared distances is least: places rise strictly
 * and lie within `low`…`high`. With place minus index as the unknown this is integer isotonic regression: pool
 * adjacent violators (Ayer, Brunk, Ewing, Reid & Silverman 1955), then round and clamp. Linear.
 *
 * @param positions rising, in units of one place
 * @returns undefined where there are more onsets than places
 */
export function assignPlaces(
  positions: readonly number[],
  low: number,
  high: number,
): readonly number[] | undefined {
  const room = high - low + 1 - positions.length;
  if (room < 0) return undefined;
  const blocks: Block[] = [];
  positions.forEach((position, index) => {
    let block: Block = { sum: position - index, count: 1 };
    for (let last = blocks.at(-1); last && mean(last) >= mean(block); last = blocks.at(-1)) {
      block = { sum: last.sum + block.sum, count: last.count + block.count };
      blocks.pop();
    }
    blocks.push(block);
  });
  const places: number[] = [];
  for (const block of blocks) {
    const value = Math.min(low + room, Math.max(low, Math.round(mean(block))));
    for (let i = 0; i < block.count; i += 1) places.push(value + places.length);
  }
  return places;
}

function mean(block: Block): number {
  return block.sum / block.count;
}
