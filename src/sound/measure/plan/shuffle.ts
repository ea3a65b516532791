/**
 * The same things in an order that looks random and is always the same (Fisher & Yates, with the generator mulberry32,
 * public domain), so that what changes slowly during a bounce falls on all articulations alike.
 */
export function shuffled<T>(things: readonly T[], seed: number): readonly T[] {
  const next = mulberry32(seed);
  const out = [...things];
  for (let last = out.length - 1; last > 0; last--) {
    const other = Math.floor(next() * (last + 1));
    const [a, b] = [out[last], out[other]];
    if (a === undefined || b === undefined) continue;
    out[last] = b;
    out[other] = a;
  }
  return out;
}

function mulberry32(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let value = Math.imul(state ^ (state >>> 15), 1 | state);
    value = (value + Math.imul(value ^ (value >>> 7), 61 | value)) ^ value;
    return ((value ^ (value >>> 14)) >>> 0) / 0x100000000;
  };
}
