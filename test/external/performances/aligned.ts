// Open performances aligned with their scores: match files, and MusicXML for the slurs.
import { readdirSync } from 'node:fs';
import { basename, join } from 'node:path';
import { Parser } from 'htmlparser2';

/** A note of the score with how it was played. Times in ms. */
export interface Aligned {
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
export function alignedNotes(
  movement: string,
  match: string,
  slurred: ReadonlySet<string>,
): readonly Aligned[] {
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
export function slurredIds(musicXml: string): ReadonlySet<string> {
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
