import { plural } from '../../diagnostics/index.js';
import type { Sheet, SheetLengths } from '../types.js';
import { plain } from './markup.js';

/** A bar of a histogram. Unit: px. */
const bar = { width: 16, height: 64 } as const;
/** Room below for edges, and above for each row of bounds. */
const foot = 14;
const row = 11;
/** How wide a letter is taken to be. */
const letter = 6.5;

const titles: Readonly<Record<SheetLengths['measure'], string>> = {
  'held-share': 'how much of its interval each note fills',
  held: 'how long each note is held',
  pace: 'from onset to onset',
};

/** Small histograms of how the notes of each part fall, with the bounds of its map; nothing where there are no notes. */
export function lengthsMarkup({ parts }: Pick<Sheet, 'parts'>): string {
  const figures = parts.flatMap(({ name, lengths = [] }) => lengths.map((one) => figureOf(name, one)));
  if (figures.length === 0) return '';
  return `<section aria-labelledby="lengths"><h2 id="lengths">Lengths</h2><div class="falls">${figures.join('')}</div></section>`;
}

function figureOf(name: string, lengths: SheetLengths): string {
  const { measure, bars, bounds, breaks } = lengths;
  const most = Math.max(1, ...bars.map(({ notes }) => notes));
  const labels = labelsOf(lengths);
  const head = 4 + row * (1 + Math.max(-1, ...labels.map((one) => one.row)));
  const [width, height] = [bars.length * bar.width, head + bar.height + foot];
  const drawn = bars.map(({ notes }, index) => {
    const tall = notes === 0 ? 0 : Math.max(1, Math.round((bar.height * notes) / most));
    const title = `<title>${plain(`${rangeOf(lengths, index)}: ${plural(notes, 'note')}`)}</title>`;
    return `<rect class="fall-bar" x="${index * bar.width + 1}" y="${head + bar.height - tall}" width="${bar.width - 2}" height="${tall}">${title}</rect>`;
  });
  const marked = labels.map(({ x, text, cutsHeap, row: at, isLeft }) => {
    const line = `<line class="${cutsHeap ? 'fall-cuts' : 'fall-bound'}" x1="${x}" x2="${x}" y1="${head - row * at - 2}" y2="${head + bar.height}"/>`;
    const anchor = isLeft ? ' text-anchor="end"' : '';
    return `${line}<text class="fall-text" x="${x}" y="${head - row * at - 4}"${anchor}>${plain(text)}</text>`;
  });
  const [first, last] = [bars[0], bars.at(-1)];
  const edges = `<text class="fall-text" x="0" y="${height - 2}">${plain(edgeOf(measure, first?.from ?? 0))}</text><text class="fall-text" x="${width}" y="${height - 2}" text-anchor="end">${plain(edgeOf(measure, last?.to ?? 0))}</text>`;
  const caption = [
    `${name}, ${measure}: ${titles[measure]}`,
    ...bounds.filter(({ cutsHeap }) => cutsHeap).map(({ text }) => `${text} cuts through a heap`),
    breaks.length === 0
      ? 'no natural break'
      : `natural ${breaks.length === 1 ? 'break' : 'breaks'}: ${breaks.join(', ')}`,
  ].join('; ');
  const said = bars.map((_, index) => `${rangeOf(lengths, index)}: ${bars[index]?.notes ?? 0}`).join(', ');
  return `<figure class="fall"><svg class="fall-plot" role="img" aria-label="${plain(said)}" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">${drawn.join('')}${marked.join('')}${edges}</svg><figcaption class="fall-caption">${plain(caption)}</figcaption></figure>`;
}

/** Where the bounds are named: each in the lowest row in which it has room. */
function labelsOf({ bars, bounds }: SheetLengths): readonly {
  readonly x: number;
  readonly text: string;
  readonly cutsHeap: boolean;
  readonly row: number;
  /** Whether it stands to the left of its line. */
  readonly isLeft: boolean;
}[] {
  const ends: number[] = [];
  return [...bounds]
    .sort((a, b) => a.value - b.value)
    .map(({ value, text, cutsHeap }) => {
      const x = placeOf(bars, value);
      const width = letter * (text.length + 1);
      const isLeft = x + width > bars.length * bar.width && x > width;
      const from = isLeft ? x - width : x;
      const free = ends.findIndex((end) => end <= from);
      const at = free < 0 ? ends.length : free;
      ends[at] = from + width;
      return { x, text, cutsHeap, row: at, isLeft };
    });
}

function rangeOf({ measure, bars }: SheetLengths, index: number): string {
  const { from, to } = bars[index] ?? { from: 0, to: 0 };
  return to === Infinity
    ? `from ${edgeOf(measure, from)}`
    : `${edgeOf(measure, from)} to ${edgeOf(measure, to)}`;
}

function edgeOf(measure: SheetLengths['measure'], value: number): string {
  if (value === Infinity) return '…';
  return `${Math.round(value)} ${measure === 'held-share' ? '%' : 'ms'}`;
}

/** Where a value lies among the bars. Unit: px. */
function placeOf(bars: SheetLengths['bars'], value: number): number {
  const index = bars.findIndex(({ to }) => value < to);
  const at = bars[index];
  if (!at) return bars.length * bar.width;
  const share = at.to === Infinity ? 0.5 : (value - at.from) / (at.to - at.from);
  return Math.round(10 * bar.width * (index + Math.max(0, share))) / 10;
}
