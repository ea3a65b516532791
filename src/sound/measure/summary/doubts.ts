import { plural } from '../keyslip.js';
import type { ProbedLibrary } from '../library.js';
import type { MeasuredSlot } from '../note/slot.js';
import type { Doubt, MeasuredArticulation, MeasureResult } from '../result.js';
import { seatsIn } from './place.js';

/** Seats of articulations that differ by more are worth a word. */
const farSeats = 0.2;
/** A clock that is off by more is worth a word. Unit: parts in a million. */
const muchDrift = 200;
/** An onset whose definition weighs more is worth a word. Unit: ms. */
const wideUncertainty = 30;

/** Why notes may not stand out. */
const why =
  'they are too soft for the noise, a tail lies under them, or the player makes up for their delay and begins them early';

/** What the result is not to be trusted in. */
export function doubtsOf(
  result: Omit<MeasureResult, 'doubts'>,
  slots: readonly MeasuredSlot[],
  library: ProbedLibrary,
): readonly Doubt[] {
  return [
    ...ofBounce(result, slots),
    ...Object.entries(result.articulations).flatMap(([name, one]) => ofArticulation(name, one, slots)),
    ...ofLevels(result, library),
    ...ofPlace(result, slots),
    ...result.alike.map(({ articulations: [a, b], dB }) => {
      const text = `sounds like ${b} (${dB.toFixed(1)} dB apart): see whether the switch of one of them does anything`;
      return { about: a, text };
    }),
  ];
}

function ofBounce(
  { bounce }: Omit<MeasureResult, 'doubts'>,
  slots: readonly MeasuredSlot[],
): readonly Doubt[] {
  const doubts: Doubt[] = [];
  const say = (text: string) => void doubts.push({ about: 'bounce', text });
  const missing = slots.filter(({ state }) => state === 'missing').length;
  const unheard = slots.filter(({ state }) => state === 'silent').length;
  if (bounce.clicks === 'none')
    say(
      'the clicks were not found: lay the click sound on bar 1 and bounce it with the probe of this very map. Without it nobody knows when a note was played, and no delay is measured; the rest takes the file to begin with bar 1',
    );
  if (bounce.clicks === 'start') say('the clicks at the end were not found: the bounce is taken to run true');
  if (Math.abs(bounce.driftPpm) > muchDrift)
    say(
      `it runs ${Math.abs(bounce.driftPpm).toFixed(0)} parts in a million too ${bounce.driftPpm > 0 ? 'slow' : 'fast'}; that was taken out`,
    );
  if (missing > 0) say(`it ends before ${plural(missing, 'note')} of ${slots.length} were played`);
  if (2 * unheard > slots.length)
    say(
      `${unheard} of ${slots.length} notes are not heard: see that the tempo of the session is 120, that the switches are those of the map, and that the track was not muted`,
    );
  return doubts;
}

function ofArticulation(
  name: string,
  { speaksAfterMs, used, rejected, uncertaintyMs }: MeasuredArticulation,
  slots: readonly MeasuredSlot[],
): readonly Doubt[] {
  const doubts: Doubt[] = [];
  const say = (text: string) => void doubts.push({ about: name, text });
  if (used === 0 && rejected > 0) say(`none of its notes stand 20 dB out of what was before them: ${why}`);
  else if (used < rejected)
    say(`only ${used} of ${used + rejected} notes stand 20 dB out of what was before them: ${why}`);
  if (speaksAfterMs !== null && uncertaintyMs !== null && uncertaintyMs > wideUncertainty)
    say(`it rises slowly: within ${2 * Math.round(uncertaintyMs)} ms any time is as right`);
  const pairs = slots.filter(({ slot }) => slot.kind === 'joined' && slot.articulation === name);
  const joined = pairs.filter(({ onset }) => onset).length;
  if (pairs.length > 0 && joined < 2)
    say(
      `${joined} of ${pairs.length} joined notes could be told from the note before: their delay is not known`,
    );
  return doubts;
}

function ofLevels(
  { levels, marks }: Omit<MeasureResult, 'doubts'>,
  { controller }: ProbedLibrary,
): readonly Doubt[] {
  if (controller === undefined)
    return [
      { about: 'levels', text: 'the map names no dynamics controller, so that no levels are measured' },
    ];
  if (levels.length > 0 && marks.length === 0)
    return [{ about: 'levels', text: `controller ${controller} moves the loudness by less than 3 dB` }];
  const beyond = marks.filter(({ isReached }) => !isReached).map(({ mark }) => mark);
  if (beyond.length === 0) return [];
  return [
    {
      about: 'levels',
      text: `the library does not reach ${beyond.join(', ')}: the nearest values are given`,
    },
  ];
}

function ofPlace({ seat }: Omit<MeasureResult, 'doubts'>, slots: readonly MeasuredSlot[]): readonly Doubt[] {
  const far = [...seatsIn(slots)].filter(([, own]) => seat !== null && Math.abs(own - seat) > farSeats);
  if (far.length === 0) return [];
  const list = far.map(([name, own]) => `${name} ${own.toFixed(2)}`).join(', ');
  return [{ about: 'seat', text: `some articulations were recorded elsewhere: ${list}` }];
}
