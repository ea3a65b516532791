import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { decided } from '../../support/decided.js';
import { lineOfNotes, plainMap } from '../../support/line.js';
import { mapOf } from '../../support/map.js';
import { type Aligned, alignedNotes, movements, slurredIds } from './aligned.js';

/**
 * Where open performances lie that are aligned with their scores, and that are not ours to pass on: the folders `match`
 * and `scores` of Batik-plays-Mozart (Hu and Widmer 2023, arXiv:2309.02399), and `match` of Vienna 4x22 (Goebl 1999).
 */
const mozart = process.env.KEYSLIP_MOZART;
const vienna = process.env.KEYSLIP_VIENNA;
if (mozart === undefined || vienna === undefined)
  console.warn(
    'deciding is not checked against open performances: KEYSLIP_MOZART and KEYSLIP_VIENNA do not say where they lie',
  );

const tenths = { ppq: 5000 };

const rules = `articulations:
  short: {switch: {note: C0}}
  slurred: {switch: {note: D0}}
rules:
  - when: {held-share: {below: 47%}}
    use: short
  - use: slurred
`;

/** The notes of each voice of a movement, in order of time. */
function voicesOf(
  name: string,
  match: string,
  slurred: ReadonlySet<string>,
): readonly (readonly Aligned[])[] {
  const notes = alignedNotes(name, match, slurred);
  const voices = [...new Set(notes.map(({ voice }) => voice))].sort();
  return voices.map((voice) =>
    notes.filter((note) => note.voice === voice).sort((a, b) => a.onset - b.onset || a.pitch - b.pitch),
  );
}

/** As they are played at ppq 5000 and 120 quarters a minute: a tick is a tenth of a millisecond. */
function asTicks(notes: readonly Aligned[]) {
  const start = notes[0]?.onset ?? 0;
  return notes.map(({ onset, release, pitch, velocity }) => ({
    tick: Math.round(10 * (onset - start)),
    end: Math.max(Math.round(10 * (onset - start)) + 1, Math.round(10 * (release - start))),
    pitch,
    velocity,
  }));
}

function mozartVoices(folder: string): readonly (readonly Aligned[])[] {
  return movements(folder).flatMap((name) =>
    voicesOf(
      name,
      readFileSync(join(folder, 'match', `${name}.match`), 'utf8'),
      slurredIds(readFileSync(join(folder, 'scores', `${name}.musicxml`), 'utf8')),
    ),
  );
}

/** The top note of each onset of the score. */
function topsOf(voice: readonly Aligned[]): readonly Aligned[] {
  const tops = new Map<number, Aligned>();
  for (const note of voice) {
    const top = tops.get(note.scoreOnset);
    if (!top || note.pitch > top.pitch) tops.set(note.scoreOnset, note);
  }
  return [...tops.values()].sort((a, b) => a.onset - b.onset);
}

/** The mean of the shares of short and of slurred notes that are right, and the switches for 100 notes. */
function measured(voices: readonly (readonly Aligned[])[], map: ReturnType<typeof mapOf>) {
  const of = { short: [0, 0], slurred: [0, 0] };
  let switches = 0;
  let notes = 0;
  for (const voice of voices) {
    const tops = topsOf(voice);
    const found = [...decided(map, asTicks(tops), [], tenths)].sort(
      (a, b) => a.note.onIndex - b.note.onIndex,
    );
    let before: string | undefined;
    for (const [index, { articulation }] of found.entries()) {
      const kind = tops[index]?.kind ?? 'other';
      if (before !== undefined && before !== articulation) switches += 1;
      before = articulation;
      notes += 1;
      if (kind === 'other') continue;
      of[kind][0] = (of[kind][0] ?? 0) + (articulation === kind ? 1 : 0);
      of[kind][1] = (of[kind][1] ?? 0) + 1;
    }
  }
  const share = ([right = 0, all = 1]: readonly number[]) => right / all;
  return { right: (share(of.short) + share(of.slurred)) / 2, switches: (100 * switches) / notes, notes };
}

/** How well onsets are chords of the score: F measure over neighbouring notes of a voice. */
function chords(voices: readonly (readonly Aligned[])[]): number {
  let [both, found, written] = [0, 0, 0];
  for (const voice of voices) {
    const line = lineOfNotes(asTicks(voice), [], tenths, plainMap());
    const onsetOf = new Map(line.notes.map((note) => [note.onIndex, note.onset]));
    const order = [...onsetOf.keys()].sort((a, b) => a - b);
    for (let index = 1; index < voice.length; index++) {
      const together = voice[index]?.scoreOnset === voice[index - 1]?.scoreOnset;
      const [one, other] = [order[index - 1] ?? -1, order[index] ?? -2];
      const heard = onsetOf.get(one) === onsetOf.get(other);
      both += together && heard ? 1 : 0;
      found += heard ? 1 : 0;
      written += together ? 1 : 0;
    }
  }
  return (2 * both) / (found + written);
}

describe.skipIf(mozart === undefined)('36 movements by Mozart', () => {
  it('are decided as they are written, with few switches', () => {
    const voices = mozartVoices(mozart ?? '');
    const plain = measured(voices, mapOf(rules));
    const steady = measured(voices, mapOf(`steadiness: 40%\n${rules}`));
    console.info(
      `plain ${plain.right.toFixed(3)}, ${plain.switches.toFixed(1)} switches; steady ${steady.right.toFixed(3)}, ${steady.switches.toFixed(1)} switches for 100 of ${steady.notes} notes`,
    );
    expect(steady.right).toBeGreaterThanOrEqual(0.82);
    expect(steady.switches).toBeLessThanOrEqual(18);
  });

  it('have the chords of the score', () => {
    const f = chords(mozartVoices(mozart ?? ''));
    console.info(`chords F ${f.toFixed(4)}`);
    expect(f).toBeGreaterThanOrEqual(0.98);
  });
});

describe.skipIf(vienna === undefined)('4 excerpts by 22 pianists', () => {
  it('have the chords of the score', () => {
    const folder = join(vienna ?? '', 'match');
    const voices = readdirSync(folder)
      .filter((name) => name.endsWith('.match'))
      .flatMap((name) => voicesOf(name, readFileSync(join(folder, name), 'utf8'), new Set()));
    const f = chords(voices);
    console.info(`chords F ${f.toFixed(4)}`);
    expect(f).toBeGreaterThanOrEqual(0.9915);
  });
});
