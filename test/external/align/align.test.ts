// The alignment against open data that people have checked. The data is not here; its licences let it be measured, not
// carried. Fetch github.com/CPJKU/vienna4x22 and github.com/huispaty/batik_plays_mozart, and name their folders in
// KEYSLIP_VIENNA4X22 and KEYSLIP_BATIK_MOZART.
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { measure, shares, sum, type Ways } from './measure.js';

const vienna = process.env.KEYSLIP_VIENNA4X22;
const batik = process.env.KEYSLIP_BATIK_MOZART;

for (const [name, folder] of Object.entries({ KEYSLIP_VIENNA4X22: vienna, KEYSLIP_BATIK_MOZART: batik }))
  if (!folder) console.warn(`not measured: ${name} does not name a folder`);

function all(folder: string, scoreOf: (take: string) => string, withWarping: boolean): readonly Ways[] {
  const takes = readdirSync(join(folder, 'match')).filter((file) => file.endsWith('.match'));
  return takes.map((file) =>
    measure(join(folder, 'match', file), join(folder, scoreOf(file.replace('.match', ''))), withWarping),
  );
}

function show(ways: readonly Ways[]) {
  const result = {
    chordwise: shares(sum(ways.map(({ chordwise }) => chordwise))),
    refined: shares(sum(ways.map(({ refined }) => refined))),
    warped: shares(sum(ways.map(({ warped }) => warped))),
  };
  console.info(JSON.stringify(result));
  return result;
}

/** Long on a busy machine. Unit: ms. */
const patience = 1_800_000;

describe('alignments that people have checked', () => {
  it.runIf(vienna)(
    '22 pianists, 4 excerpts: at least 98 % of the notes',
    () => {
      const { chordwise, refined, warped } = show(
        all(vienna ?? '', (take) => `musicxml/${take.replace(/_p\d+$/u, '')}.musicxml`, true),
      );
      expect(refined.found).toBeGreaterThanOrEqual(0.98);
      expect(refined.right).toBeGreaterThanOrEqual(0.98);
      // why it is done in two steps, and why not by time warping
      expect(refined.found).toBeGreaterThan(chordwise.found);
      expect(refined.found).toBeGreaterThan(warped.found);
    },
    patience,
  );

  it.runIf(batik)(
    '36 movements: at least 97 % of the notes, though repeats are left out and ornaments played',
    () => {
      const { chordwise, refined } = show(all(batik ?? '', (take) => `scores/${take}.musicxml`, false));
      expect(refined.found).toBeGreaterThanOrEqual(0.97);
      expect(refined.right).toBeGreaterThanOrEqual(0.97);
      expect(refined.found).toBeGreaterThan(chordwise.found);
    },
    patience,
  );
});
