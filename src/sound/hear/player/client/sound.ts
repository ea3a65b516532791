/** A sound that can be heard from anywhere in it. */
export interface Sound {
  /** Unit: ms. */
  readonly lengthMs: number;
  readonly isOn: boolean;
  /** Where it is, or where it was hushed. Unit: ms. */
  at(): number;
  hear(fromMs: number): Promise<void>;
  hush(): void;
  /** What is heard again and again; undefined for none. What sounds goes on where it is. */
  again(range: { readonly fromMs: number; readonly toMs: number } | undefined): void;
  /** 0 to 1, as a share of the whole amplitude. */
  loudness(share: number): void;
}

/** So that neither a beginning nor an end clicks. Unit: seconds. */
const ramp = 0.01;

/**
 * Makes a sound of a compressed file that the page has in it. Nothing is asked for from anywhere. Ranges are heard again
 * without a gap, to the sample.
 *
 * @param onEnd is told when the sound has come to its end
 */
export async function soundOf(bytes: ArrayBuffer, onEnd: () => void): Promise<Sound> {
  const context = new AudioContext();
  const buffer = await context.decodeAudioData(bytes);
  const level = context.createGain();
  level.connect(context.destination);
  let range: { readonly fromMs: number; readonly toMs: number } | undefined;
  let source: AudioBufferSourceNode | undefined;
  let fade: GainNode | undefined;
  /** When, on the context's clock, the place `from` was heard. */
  let began = 0;
  let from = 0;
  let wanted = 1;

  /** Where it is so long after it began. */
  function placeAfter(ms: number): number {
    const on = from + Math.max(0, ms);
    if (!range || on < range.toMs || from >= range.toMs) return Math.min(on, buffer.duration * 1000);
    return range.fromMs + ((on - range.fromMs) % (range.toMs - range.fromMs));
  }

  const elapsed = () => (context.currentTime - began) * 1000;

  /** Where the next sample will be from. */
  const rendered = () => (source ? placeAfter(elapsed()) : from);

  /** What is heard was rendered a little before: loudspeakers and headphones have a latency. */
  const at = () => (source ? placeAfter(elapsed() - 1000 * (context.outputLatency || 0)) : from);

  function setRange(node: AudioBufferSourceNode): void {
    node.loop = range !== undefined;
    node.loopStart = (range?.fromMs ?? 0) / 1000;
    node.loopEnd = Math.min(buffer.duration, (range?.toMs ?? 0) / 1000);
  }

  function stop(): void {
    if (!source || !fade) return;
    source.onended = null;
    fade.gain.setTargetAtTime(0, context.currentTime, ramp / 3);
    source.stop(context.currentTime + 2 * ramp);
    source = undefined;
  }

  return {
    lengthMs: buffer.duration * 1000,
    get isOn() {
      return source !== undefined;
    },
    at,
    async hear(fromMs) {
      stop();
      await context.resume();
      const node = context.createBufferSource();
      node.buffer = buffer;
      setRange(node);
      const edge = context.createGain();
      edge.gain.setValueAtTime(0, context.currentTime);
      edge.gain.linearRampToValueAtTime(1, context.currentTime + ramp);
      node.connect(edge).connect(level);
      from = Math.max(0, Math.min(fromMs, buffer.duration * 1000));
      began = context.currentTime;
      node.onended = () => {
        if (source !== node) return;
        source = undefined;
        from = 0;
        onEnd();
      };
      node.start(0, from / 1000);
      source = node;
      fade = edge;
    },
    hush() {
      from = at();
      stop();
    },
    again(next) {
      const here = rendered();
      range = next;
      from = here;
      began = context.currentTime;
      if (source) setRange(source);
    },
    loudness(share) {
      wanted = Math.max(0, Math.min(1, share));
      level.gain.setTargetAtTime(wanted, context.currentTime, ramp);
    },
  };
}
