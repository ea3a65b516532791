import { sayTests } from '../spelling.js';
import type { LearnedTracks } from './tracks.js';

/**
 * What was learned, as `learn --json` prints it.
 *
 * @param decidedAlike of how many notes the written map gives how many what sounded there
 */
export function learnedJson(
  { learned, notes }: Pick<LearnedTracks, 'learned' | 'notes'>,
  pitchName: (pitch: number) => string,
  decidedAlike?: { readonly right: number; readonly of: number },
): object {
  const { ladder, rules, stretches, notLearned, verdict, steadiness, guess, accuracy, heldOut } = learned;
  const nameOf = (articulation: number) => notes.articulations[articulation] ?? '';
  return {
    format: 'keyslip-learn/1',
    verdict,
    notes: learned.notes,
    guess,
    accuracy,
    heldOut,
    steadiness,
    ...(decidedAlike ? { decidedAlike } : {}),
    rules: ladder.map(({ tests, articulation }, index) => ({
      when: sayTests(tests, pitchName),
      use: nameOf(articulation),
      decides: rules[index]?.decides ?? 0,
      wrong: rules[index]?.wrong ?? 0,
    })),
    exceptions: stretches.flatMap(({ exceptions, looks }) =>
      exceptions.map(({ row, sounded, says }) => ({
        piece: notes.pieces[notes.piece[row] ?? 0]?.name ?? '',
        bar: notes.bar[row] ?? 0,
        beat: Math.round((notes.beat[row] ?? 0) * 100) / 100,
        tick: notes.tick[row] ?? 0,
        sounded: nameOf(sounded),
        says: nameOf(says),
        looks,
      })),
    ),
    notLearned: notLearned.map(({ articulation, notes: sounding }) => ({
      articulation: nameOf(articulation),
      notes: sounding,
    })),
    shift: learned.shift,
    forgetful: learned.forgetful,
  };
}
