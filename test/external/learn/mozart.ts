import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { Parser } from 'htmlparser2';
import type { LearnNotes, LearnPiece } from '../../../src/learn/notes.js';

/** A note of the score with how it was played. Times in ms. */
interface Aligned {
  readonly movement: string;
  readonly voice: string;
  /** In quarter notes of the score as played, repeats written out. */
  readonly scoreOnset: number;
  readonly onset: number;
  readonly release: number;
  readonly pitch: number;
  readonly velocity: number;
  /** `short` by a dot or a stroke, `slurred` to the next note, or neither. */
  readonly kind: 'short' | 'slurred' | 'other';
  readonly bar: number;
}

const line =
  /^snote\(([^,]+),\[[A-G],[^\]]*\],-?\d+,(\d+):[^,]*,[^,]*,[^,]*,(-?[\d.]+),[^,]*,\[([^\]]*)\]\)-note\([^,]+,(\d+),(\d+),(\d+),(\d+),/u;

/**
 * The aligned notes of a movement. Ties, ornaments and grace notes are left out, and so is the pedal.
 *
 * @param slurred the ids of the score's notes under a slur that goes on to the next note
 */
function alignedNotes(movement: string, match: string, slurred: ReadonlySet<string>): readonly Aligned[] {
  const units = Number(/midiClockUnits,(\d+)/u.exec(match)?.[1] ?? 480);
  const rate = Number(/midiClockRate,(\d+)/u.exec(match)?.[1] ?? 500_000);
  const msPerTick = rate / units / 1000;
  return match.split('\n').flatMap((text): Aligned[] => {
    const found = line.exec(text);
    if (!found) return [];
    const [, id = '', bar = '', scoreOnset = '', attributes = '', pitch, on, off, velocity] = found;
    const marks = attributes.split(',');
    if (marks.some((mark) => /grace|trill|turn|mordent|wavy/u.test(mark))) return [];
    const short = marks.includes('staccato') || marks.includes('staccatissimo');
    const kind = short ? 'short' : slurred.has(id.replace(/-\d+$/u, '')) ? 'slurred' : 'other';
    return [
      {
        movement,
        voice: marks.find((mark) => /^v\d/u.test(mark)) ?? '',
        scoreOnset: Number(scoreOnset),
        onset: Number(on) * msPerTick,
        release: Number(off) * msPerTick,
        pitch: Number(pitch),
        velocity: Number(velocity),
        kind,
        bar: Number(bar),
      },
    ];
  });
}

/** Ids of the notes that a slur begins or goes on at, and does not end at. */
function slurredIds(musicXml: string): ReadonlySet<string> {
  const slurred = new Set<string>();
  const open = new Map<string, Set<string>>();
  let id = '';
  let voice = '';
  let text = '';
  let slurs: { readonly type: string; readonly number: string }[] = [];
  const parser = new Parser(
    {
      onopentag(name, attributes) {
        text = '';
        if (name === 'note') {
          id = attributes.id ?? '';
          slurs = [];
        }
        if (name === 'slur') slurs.push({ type: attributes.type ?? '', number: attributes.number ?? '1' });
      },
      ontext(more) {
        text += more;
      },
      onclosetag(name) {
        if (name === 'voice') voice = text.trim();
        if (name !== 'note') return;
        const under = open.get(voice) ?? new Set<string>();
        for (const { type, number } of slurs) if (type === 'stop') under.delete(number);
        for (const { type, number } of slurs) if (type === 'start') under.add(number);
        open.set(voice, under);
        if (under.size > 0) slurred.add(id);
      },
    },
    { xmlMode: true },
  );
  parser.write(musicXml);
  parser.end();
  return slurred;
}

/** The movements that a folder of the data has, in order of name. */
export function movements(folder: string): readonly string[] {
  return readdirSync(join(folder, 'match'))
    .filter((name) => name.endsWith('.match'))
    .map((name) => basename(name, '.match'))
    .sort();
}

/** The top line of each voice of some movements; a piece is a voice. Labels: 0 short, 1 slurred, −1 neither. */
export function mozartNotes(folder: string, names: readonly string[]): LearnNotes {
  const notes: (Aligned & {
    readonly next: Aligned | undefined;
    readonly piece: number;
    readonly chord: number;
  })[] = [];
  const pieces: LearnPiece[] = [];
  for (const name of names) {
    const slurred = slurredIds(readFileSync(join(folder, 'scores', `${name}.musicxml`), 'utf8'));
    const aligned = alignedNotes(name, readFileSync(join(folder, 'match', `${name}.match`), 'utf8'), slurred);
    for (const voice of [...new Set(aligned.map((note) => note.voice))].sort()) {
      const onsets = new Map<number, Aligned[]>();
      for (const note of aligned.filter((one) => one.voice === voice))
        onsets.set(note.scoreOnset, [...(onsets.get(note.scoreOnset) ?? []), note]);
      const tops = [...onsets.values()]
        .map((chord) => ({ top: chord.reduce((a, b) => (b.pitch > a.pitch ? b : a)), chord: chord.length }))
        .sort((a, b) => a.top.scoreOnset - b.top.scoreOnset);
      tops.forEach(({ top, chord }, index) => {
        notes.push({ ...top, next: tops[index + 1]?.top, piece: pieces.length, chord });
      });
      // No tempo map is aligned with the score: fractions are left out by one that no note can reach.
      pieces.push({ name: `${name} ${voice}`, ticksPerWhole: 1 });
    }
  }
  return columns(notes, pieces);
}

type Row = Aligned & { readonly next: Aligned | undefined; readonly piece: number; readonly chord: number };

function columns(notes: readonly Row[], pieces: readonly LearnPiece[]): LearnNotes {
  const each = (of: (note: Row, previous: Row | undefined) => number) =>
    Float64Array.from(notes, (note, row) => {
      const before = notes[row - 1];
      return of(note, before?.piece === note.piece ? before : undefined);
    });
  const none = new Float64Array(notes.length);
  const pace = ({ onset, release, next }: Row) => Math.max(1, next ? next.onset - onset : release - onset);
  const overlaps = (note: Row) => (note.next && note.next.onset - note.release <= 10 ? 1 : 0);
  const restAfter = ({ next, release }: Row) => (next ? Math.max(0, next.onset - release) : Infinity);
  return {
    length: notes.length,
    pieces,
    piece: notes.map(({ piece }) => piece),
    articulations: ['short', 'slurred'],
    label: Int32Array.from(notes, ({ kind }) => ['short', 'slurred'].indexOf(kind)),
    tick: notes.map(({ onset }) => onset),
    bar: notes.map(({ bar }) => bar),
    beat: notes.map(() => 1),
    heldMs: each(({ onset, release }) => release - onset),
    heldTicks: none,
    paceMs: each(pace),
    paceTicks: none,
    heldShare: each((note) => (100 * (note.release - note.onset)) / pace(note)),
    restBeforeMs: each((_, previous) => (previous ? restAfter(previous) : Infinity)),
    restBeforeTicks: none,
    restAfterMs: each(restAfter),
    restAfterTicks: none,
    velocity: notes.map(({ velocity }) => velocity),
    pitch: notes.map(({ pitch }) => pitch),
    leap: each((note, previous) => (previous ? Math.abs(note.pitch - previous.pitch) : Number.NaN)),
    chord: notes.map(({ chord }) => chord),
    repeatsPrevious: each((note, previous) => (previous?.pitch === note.pitch ? 1 : 0)),
    repeatsNext: each(({ pitch, next }) => (next?.pitch === pitch ? 1 : 0)),
    overlapsNext: each(overlaps),
    overlapsPrevious: each((_, previous) => (previous ? overlaps(previous) : 0)),
  };
}
