/** A note of a score, in quarter notes from its beginning. */
export interface ScoreNote {
  readonly from: number;
  readonly to: number;
  readonly pitch: number;
  readonly voice: number;
}

export interface Score {
  readonly notes: readonly ScoreNote[];
  /** Where each bar begins, by its number. */
  readonly bars: ReadonlyMap<number, number>;
  readonly beatsPerBar: number;
  /** The note value of a beat: 4 is a quarter. */
  readonly beatUnit: number;
}

const letterPitch: Readonly<Record<string, number>> = { c: 0, d: 2, e: 4, f: 5, g: 7, a: 9, b: 11 };

/** A spine of a kern file, with how far it is written. */
interface Spine {
  readonly kern: boolean;
  readonly voice: number;
  readonly tied: Map<number, number>;
}

/**
 * Reads the notes of a score in the kern representation (D. Huron, Humdrum Toolkit reference manual, "**kern"): lengths,
 * pitches, ties, chords, spines that part and join. Grace notes are left out; repeats are read once.
 */
export function readKern(text: string): Score {
  const score = new KernReader();
  for (const line of text.split(/\r?\n/u)) score.line(line);
  return score.done();
}

class KernReader {
  #spines: Spine[] = [];
  #at = 0;
  readonly #notes: { from: number; to: number; pitch: number; voice: number }[] = [];
  readonly #bars = new Map<number, number>();
  #metre: readonly [number, number] = [4, 4];
  #metreIsKnown = false;
  /** Where each spine's last token ends. */
  #ends: number[] = [];

  line(line: string): void {
    if (line === '' || line.startsWith('!')) return;
    const tokens = line.split('\t');
    if (line.startsWith('**'))
      this.#spines = tokens.map((name, voice) => ({ kern: name === '**kern', voice, tied: new Map() }));
    else if (line.startsWith('*')) this.#interpretation(tokens);
    else if (line.startsWith('=')) this.#bar(tokens[0] ?? '');
    else this.#data(tokens);
  }

  done(): Score {
    return {
      notes: this.#notes.sort((a, b) => a.from - b.from || a.pitch - b.pitch),
      bars: this.#bars,
      beatsPerBar: this.#metre[0],
      beatUnit: this.#metre[1],
    };
  }

  #bar(token: string): void {
    const number = /^=+(\d+)/u.exec(token)?.[1];
    if (number !== undefined && !this.#bars.has(Number(number))) this.#bars.set(Number(number), this.#next());
  }

  #interpretation(tokens: readonly string[]): void {
    const metre = tokens.map((token) => /^\*M(\d+)\/(\d+)$/u.exec(token)).find((found) => found !== null);
    if (metre && !this.#metreIsKnown) {
      this.#metre = [Number(metre[1]), Number(metre[2])];
      this.#metreIsKnown = true;
    }
    if (!tokens.some((token) => token === '*^' || token === '*v' || token === '*-')) return;
    const spines: Spine[] = [];
    const ends: number[] = [];
    let joining = false;
    tokens.forEach((token, index) => {
      const spine = this.#spines[index];
      const end = this.#ends[index] ?? this.#at;
      const joins = token === '*v' && joining;
      joining = token === '*v';
      if (!spine || joins || token === '*-') return;
      spines.push(spine);
      ends.push(end);
      if (token === '*^') {
        spines.push({ ...spine, tied: new Map() });
        ends.push(end);
      }
    });
    this.#spines = spines;
    this.#ends = ends;
  }

  #data(tokens: readonly string[]): void {
    this.#at = this.#next();
    tokens.forEach((token, index) => {
      const spine = this.#spines[index];
      if (!spine?.kern || token === '.') return;
      const length = Math.max(0, ...token.split(' ').map(lengthOf));
      if (length <= 0) return;
      this.#ends[index] = this.#at + length;
      for (const note of token.split(' ')) this.#note(note, spine);
    });
  }

  /** The next line stands where the first of the sounding tokens ends. */
  #next(): number {
    const after = this.#ends.filter((end) => end > this.#at + 1e-9);
    return after.length > 0 ? Math.min(...after) : this.#at;
  }

  #note(token: string, { voice, tied }: Spine): void {
    const pitch = pitchOf(token);
    if (pitch === null) return;
    const to = this.#at + lengthOf(token);
    const before = /[\]_]/u.test(token) ? tied.get(pitch) : undefined;
    const open = before === undefined ? undefined : this.#notes[before];
    if (open) open.to = to;
    else {
      tied.set(pitch, this.#notes.length);
      this.#notes.push({ from: this.#at, to, pitch, voice });
    }
  }
}

function lengthOf(token: string): number {
  if (/q/iu.test(token)) return 0;
  const [, value, dots = ''] = /(\d+)(\.*)/u.exec(token) ?? [];
  if (value === undefined) return 0;
  const plain = /^0+$/u.test(value) ? 4 * 2 ** value.length : 4 / Number(value);
  return plain * (2 - 0.5 ** dots.length);
}

function pitchOf(token: string): number | null {
  const [, letters, signs = ''] = /([a-g]+|[A-G]+)([#-]*)/u.exec(token) ?? [];
  const letter = letters?.charAt(0) ?? '';
  const step = letterPitch[letter.toLowerCase()];
  if (letters === undefined || step === undefined || token.includes('r')) return null;
  const octave = letter === letter.toLowerCase() ? 4 + letters.length : 5 - letters.length;
  const altered = signs.split('').reduce((sum, sign) => sum + (sign === '#' ? 1 : -1), 0);
  return 12 * octave + step + altered;
}
