/**
 * What a track says, however it abbreviates it: each event as its tick and its bytes, with its status byte and its
 * lengths in full. A reader of its own, byte by byte, for checking ours.
 */
export function normal(body: ArrayLike<number>): string[] {
  const rest = Array.from(body);
  const said: string[] = [];
  const take = (): number => {
    const byte = rest[at++];
    if (byte === undefined) throw new Error('no more bytes');
    return byte;
  };
  const number = (): number => {
    let value = 0;
    for (;;) {
      const byte = take();
      value = value * 128 + (byte % 128);
      if (byte < 128) return value;
    }
  };
  const data = (): number[] => Array.from({ length: number() }, take);
  let at = 0;
  let tick = 0;
  let status = -1;
  while (at < rest.length) {
    tick += number();
    const first = take();
    if (first === 0xff) said.push(`${tick} meta ${take()}: ${data().join(' ')}`);
    else if (first >= 0xf0) said.push(`${tick} exclusive ${first}: ${data().join(' ')}`);
    else {
      const isRunning = first < 0x80;
      if (!isRunning) status = first;
      const parameters = isRunning ? [first] : [take()];
      const kind = Math.floor(status / 16);
      if (kind !== 0xc && kind !== 0xd) parameters.push(take());
      said.push(`${tick} ${status}: ${parameters.join(' ')}`);
    }
  }
  return said;
}

/** The bodies of the track chunks of a file. */
export function trackBodies(file: Uint8Array): Uint8Array[] {
  const bodies: Uint8Array[] = [];
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  for (let at = 0; at + 8 <= file.length; at += 8 + view.getUint32(at + 4))
    if (view.getUint32(at) === 0x4d54726b)
      bodies.push(file.subarray(at + 8, at + 8 + view.getUint32(at + 4)));
  return bodies;
}
