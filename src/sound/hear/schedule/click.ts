/** A click is a short tone of its own, so that no bank is needed for it: higher on the first beat of a bar. */
const strongHertz = 1600;
const weakHertz = 1000;

/** At the loudest; −14 dB below full scale. Own choice: it stands out of music, and does not hurt beside it. */
const loudest = 0.2;

/** How fast it dies away. Unit: seconds to 1/e. */
const decay = 0.008;

/** The sample of a click so many frames behind its beginning. */
export function clickSample(frame: number, isStrong: boolean, sampleRate: number): number {
  const seconds = frame / sampleRate;
  const hertz = isStrong ? strongHertz : weakHertz;
  return loudest * Math.exp(-seconds / decay) * Math.sin(2 * Math.PI * hertz * seconds);
}
