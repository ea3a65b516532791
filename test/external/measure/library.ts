import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { writeMidi } from 'midi-file';
import {
  clickTrack,
  type ProbedArticulation,
  type ProbedLibrary,
  type ProbePlan,
} from '../../../src/sound/measure/index.js';
import { envelopeOf, type Onset, onsetOf } from '../../../src/sound/measure/note/onset.js';
import { stereoPower } from '../../../src/sound/signal/index.js';
import { articulation, libraryOf, short } from '../../sound/measure/library.js';
import { rate, render, samplesOf } from './render.js';

const program = (number: number): Pick<ProbedArticulation, 'switch'> => ({
  switch: [{ kind: 'program', program: number }],
});

/** Sounds of the General MIDI set, named by what they are. */
export const eight: ProbedLibrary = libraryOf(
  [
    articulation('strings', { ...program(48), overlapMs: 40 }),
    articulation('slow-strings', program(49)),
    articulation('tremolo', program(44)),
    articulation('choir', program(52)),
    articulation('horn', program(60)),
    articulation('trombone', { ...program(57), loudness: 'velocity', overlapMs: 40 }),
    short('plucked', program(45)),
    short('timpani', program(47)),
  ],
  { controller: 11, range: { low: 48, high: 84 } },
);

/** The click track of a plan as a file. */
export function clicksOf(folder: string, plan: ProbePlan): string {
  const file = join(folder, 'click.wav');
  writeFileSync(file, Buffer.concat([...clickTrack(plan)]));
  return file;
}

/** A plan with some articulations only; all else keeps its time. */
export function onlySlots(plan: ProbePlan, names: readonly string[]): ProbePlan {
  return { ...plan, slots: plan.slots.filter((slot) => names.includes(slot.articulation)) };
}

/** A note that sounds alone. */
export interface Single {
  readonly pitch: number;
  readonly velocity: number;
  readonly value: number;
  readonly held: number;
}

const apart = 7;

/**
 * Onsets of single notes of one articulation, far from each other in a file of their own without clicks: what a bounce is
 * compared with. Undefined where a note does not stand out.
 */
export async function singleOnsets(
  folder: string,
  { name, switch: [message] }: ProbedArticulation,
  notes: readonly Single[],
): Promise<readonly (Onset | undefined)[]> {
  const perSecond = 960;
  const timed = notes.flatMap(({ pitch, velocity, value, held }, index) => {
    const at = (1 + index * apart) * perSecond;
    return [
      { at: at - 480, event: { type: 'controller', channel: 0, controllerType: 11, value } as const },
      { at, event: { type: 'noteOn', channel: 0, noteNumber: pitch, velocity } as const },
      {
        at: at + held * perSecond,
        event: { type: 'noteOff', channel: 0, noteNumber: pitch, velocity: 64 } as const,
      },
    ];
  });
  let before = 0;
  const events = timed.map(({ at, event }) => {
    const deltaTime = at - before;
    before = at;
    return { deltaTime, ...event };
  });
  const programNumber = message?.kind === 'program' ? message.program : 0;
  const midi = writeMidi({
    header: { format: 0, numTracks: 1, ticksPerBeat: 480 },
    tracks: [
      [
        { deltaTime: 0, type: 'programChange', channel: 0, programNumber },
        ...events,
        { deltaTime: 4800, meta: true, type: 'endOfTrack' },
      ],
    ],
  });
  const [left = new Float32Array(0), right = left] = await samplesOf(
    render(folder, name, Uint8Array.from(midi)),
  );
  return notes.map(({ pitch, held }, index) => {
    const from = (0.5 + index * apart) * rate;
    const to = from + 6 * rate;
    return onsetOf(
      envelopeOf(stereoPower(left.subarray(from, to), right.subarray(from, to), rate), pitch, 0.5, held),
    );
  });
}
