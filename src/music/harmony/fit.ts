import { setAbove } from './class-set.js';
import { type Kind, kinds } from './kinds.js';

/** What sounds, as chords are fitted to it. */
export interface Sound {
  /** For each of the 12 pitch classes the share of the time through which it sounds, 0–1. */
  readonly classes: readonly number[];
  /** Pitch class of the bass. */
  readonly bass: number;
  /** Whether fourths stand on the bass: C F B♭. The same tones in another order are a suspension. */
  readonly stacked: boolean;
}

/** A chord that is read into what sounds. */
export interface Reading {
  readonly root: number;
  readonly kind: Kind;
  /** Tones explained, less tones that are foreign to it or that it lacks, less its cost. */
  readonly score: number;
}

const lackOfTone = { third: 2, fifth: 0.3, other: 0.8 };
const rootInBass = 0.35;
const bassInChord = 0.2;
/** Below this share of what sounds, a chord explains nothing. */
const leastExplained = 0.6;
/** No chord is read where the best scores less: a cluster has none. */
const leastScore = 0.8;

/**
 * The chord that fits best what sounds; null where none does. Scored as in B. Pardo, W. P. Birmingham, "Algorithms for
 * Chordal Analysis", Computer Music Journal 26(2), 2002: weight of matched tones, less that of others, less tones of the
 * chord that are missing. Extended by more kinds of chord, each with a cost, and by the bass. The root must sound.
 */
export function bestReading(sound: Sound): Reading | null {
  let total = 0;
  let sounding = 0;
  for (let pitchClass = 0; pitchClass < 12; pitchClass++) {
    const weight = sound.classes[pitchClass] ?? 0;
    total += weight;
    if (weight > 0) sounding |= 1 << pitchClass;
  }
  let best: Reading | null = null;
  for (let root = 0; root < 12; root++)
    if (sounding & (1 << root)) best = betterOn(root, sound, total, setAbove(root, sounding), best);
  return best && best.score >= leastScore ? best : null;
}

/**
 * The best on a root, where it is better than that of the roots before.
 *
 * @param sounding the pitch classes that sound, counted from the root
 */
function betterOn(
  root: number,
  sound: Sound,
  total: number,
  sounding: number,
  before: Reading | null,
): Reading | null {
  const { prices, missing } = lacksOf(sounding);
  let best = before;
  for (let number = 0; number < kinds.length; number++) {
    // No kind scores more than if it matched all; most of them lack too much for that, and are not looked at.
    if (best && total + rootInBass + bassInChord - (prices[number] ?? 0) < best.score) continue;
    const kind = kinds[number];
    const score = kind ? scoreOf(sound, total, root, kind, missing[number] ?? 0) : null;
    if (kind && score !== null && (best === null || score > best.score + 1e-9)) best = { root, kind, score };
  }
  return best;
}

/**
 * null where the chord explains too little of what sounds, or would stand on its ninth, eleventh or thirteenth.
 *
 * @param missing what it takes away that some of its tones do not sound
 */
function scoreOf(
  { classes, bass, stacked }: Sound,
  total: number,
  root: number,
  kind: Kind,
  missing: number,
): number | null {
  if (kind.quartal && !(stacked && root === bass)) return null;
  const above = (bass - root + 12) % 12;
  if (kind.tones.includes(above + 12)) return null;
  let matched = 0;
  for (const tone of kind.tones) matched += classes[(root + tone) % 12] ?? 0;
  if (matched < total * leastExplained) return null;
  const ground = above === 0 ? rootInBass + bassInChord : kind.intervals.includes(above) ? bassInChord : 0;
  return 2 * matched - total - missing - kind.cost + ground;
}

/** What each kind lacks. */
interface Lacks {
  /** What it takes away that tones of it do not sound. */
  readonly missing: Float64Array;
  /** The same with the kind's cost. */
  readonly prices: Float64Array;
}

/** For each set of pitch classes above a root that was asked for. */
const lacksBySet: (Lacks | undefined)[] = new Array(1 << 12);

function lacksOf(sounding: number): Lacks {
  const known = lacksBySet[sounding];
  if (known) return known;
  const missing = Float64Array.from(kinds, (kind) =>
    kind.tones.reduce((sum, tone) => (sounding & (1 << (tone % 12)) ? sum : sum + lackOf(tone, kind)), 0),
  );
  const lacks = { missing, prices: missing.map((lack, number) => lack + (kinds[number]?.cost ?? 0)) };
  lacksBySet[sounding] = lacks;
  return lacks;
}

/** A chord is heard without its fifth, hardly without its third; a bare fifth and a suspension are nothing without theirs. */
function lackOf(tone: number, { tones }: Kind): number {
  if (tone === 3 || tone === 4) return lackOfTone.third;
  return tone === 7 && tones.length > 2 && (tones[1] === 3 || tones[1] === 4)
    ? lackOfTone.fifth
    : lackOfTone.other;
}
