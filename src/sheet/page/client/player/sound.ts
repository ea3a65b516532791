/** A sound that can be heard from anywhere in it. */
export interface Sound {
  readonly isOn: boolean;
  /** Where it is, or where it was hushed. Unit: ms. */
  at(): number;
  /** Throws where the browser cannot read the sound; it is read when it is first heard. */
  hear(fromMs: number): Promise<void>;
  hush(): void;
  /** What is heard again and again; undefined for none. What sounds goes on where it is. */
  again(range: { readonly fromMs: number; readonly toMs: number } | undefined): void;
  /** 0 to 1, as a share of the whole amplitude. */
  loudness(share: number): void;
}

/** So that neither a beginning nor an end clicks. Unit: seconds. */
const ramp = 0.01;

/** What a sound is played with, once it was read. */
interface Ready {
  readonly context: AudioContext;
  readonly buffer: AudioBuffer;
  readonly level: GainNode;
}

async function readySound(bytes: ArrayBuffer): Promise<Ready> {
  const context = new AudioContext();
  const buffer = await context.decodeAudioData(bytes);
  const level = context.createGain();
  level.connect(context.destination);
  return { context, buffer, level };
}

/**
 * Makes a sound of a compressed file that the page has in it. Nothing is asked for from anywhere. Ranges are heard again
 * without a gap, to the sample.
 *
 * @param take gives the file, once
 * @param onEnd is told when the sound has come to its end
 */
export function soundOf(take: () => ArrayBuffer, lengthMs: number, onEnd: () => void): Sound {
  let reading: Promise<Ready> | undefined;
  let ready: Ready | undefined;
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
    if (!range || on < range.toMs || from >= range.toMs) return Math.min(on, lengthMs);
    return range.fromMs + ((on - range.fromMs) % (range.toMs - range.fromMs));
  }

  const elapsed = () => ((ready?.context.currentTime ?? 0) - began) * 1000;

  /** Where the next sample will be from. */
  const rendered = () => (source ? placeAfter(elapsed()) : from);

  /** What is heard was rendered a little before: loudspeakers and headphones have a latency. */
  const at = () => (source ? placeAfter(elapsed() - 1000 * (ready?.context.outputLatency || 0)) : from);

  function setRange(node: AudioBufferSourceNode): void {
    node.loop = range !== undefined;
    node.loopStart = (range?.fromMs ?? 0) / 1000;
    node.loopEnd = Math.min(lengthMs, range?.toMs ?? 0) / 1000;
  }

  function stop(): void {
    if (!source || !fade || !ready) return;
    const now = ready.context.currentTime;
    source.onended = null;
    fade.gain.setTargetAtTime(0, now, ramp / 3);
    source.stop(now + 2 * ramp);
    source = undefined;
  }

  function start({ context, buffer, level }: Ready, fromMs: number): void {
    const node = context.createBufferSource();
    node.buffer = buffer;
    setRange(node);
    const edge = context.createGain();
    edge.gain.setValueAtTime(0, context.currentTime);
    edge.gain.linearRampToValueAtTime(1, context.currentTime + ramp);
    node.connect(edge).connect(level);
    from = Math.max(0, Math.min(fromMs, lengthMs));
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
  }

  return {
    get isOn() {
      return source !== undefined;
    },
    at,
    async hear(fromMs) {
      stop();
      from = fromMs;
      reading ??= readySound(take());
      ready = await reading;
      await ready.context.resume();
      ready.level.gain.value = wanted;
      // what was asked for meanwhile counts
      stop();
      start(ready, from);
    },
    hush() {
      from = at();
      stop();
    },
    again(next) {
      const here = rendered();
      range = next;
      from = here;
      began = ready?.context.currentTime ?? 0;
      if (source) setRange(source);
    },
    loudness(share) {
      wanted = Math.max(0, Math.min(1, share));
      ready?.level.gain.setTargetAtTime(wanted, ready.context.currentTime, ramp);
    },
  };
}
