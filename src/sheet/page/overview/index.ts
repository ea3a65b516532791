// The whole piece at a glance: who plays when, how loud, and where the tune is; leads to the systems.
import { dynamicMarks } from '../../../dynamics/index.js';
import { formatBars } from '../../../midi/index.js';
import type { NotatedBar } from '../../notate/index.js';
import type { Sheet } from '../../types.js';
import { plain } from '../markup.js';
import { type Cell, type Overview, overviewOf } from './found.js';

/** Heights: of the bar numbers, of a part's row, of what is as loud as can be. Unit: CSS px. */
const top = 18;
const row = 20;
const tallest = 14;
const shortest = 2;

/** No more places than this are led to, each for itself. */
const mostLinks = 60;
/** A number is written where it stands at least this share of the piece behind the one before, and from its end. */
const apart = 1 / 16;

/** A place that is led to: a system, or several where there are many. Bars with both ends. */
interface Place {
  readonly from: number;
  readonly to: number;
}

/**
 * A row for each part, a column for each bar: as high as the part is loud, underlined where it has the tune. '' where all
 * of it is in sight anyway, in one system.
 *
 * @param bars those that are drawn
 */
export function overviewMarkup(sheet: Sheet, bars: readonly NotatedBar[]): string {
  const places = placesOf(bars);
  if (places.length < 2) return '';
  const found = overviewOf(sheet, bars);
  const names = sheet.parts.map(({ name }) => `<li>${plain(name)}</li>`).join('');
  const height = top + row * sheet.parts.length;
  const rows = found.rows.map((cells, index) => rowMarkup(found, cells, top + row * (index + 1) - 4));
  let numbered = Number.NEGATIVE_INFINITY;
  const links = places.map((place) => {
    const isApart = (from: number, to: number) => (to - from) / found.bars >= apart;
    const isNumbered = isApart(numbered, place.from) && isApart(place.from, found.first + found.bars);
    if (isNumbered) numbered = place.from;
    return linkMarkup(sheet, found, place, isNumbered);
  });
  const tune = found.rows.some((cells) => cells.some((cell) => cell?.hasTune))
    ? ', underlined where it has the tune'
    : '';
  return `<section class="overview" aria-labelledby="whole"><h2 id="whole">The whole piece</h2><div class="glance"><ul aria-hidden="true">${names}</ul><svg height="${height}" role="group" aria-labelledby="whole"><g class="playing">${rows.join('')}</g>${links.join('')}</svg></div><p>A part’s block is as high as it is loud${tune}; bars lead to their place.</p></section>`;
}

/** Bars in places that are led to, each of them whole systems. */
function placesOf(bars: readonly NotatedBar[]): readonly Place[] {
  const systems: { from: number; to: number }[] = [];
  bars.forEach(({ bar, bars: many, system }, index) => {
    const open = systems.at(-1);
    if (open && bars[index - 1]?.system === system) open.to = bar + many - 1;
    else systems.push({ from: bar, to: bar + many - 1 });
  });
  const each = Math.ceil(systems.length / mostLinks);
  return systems.flatMap(({ from }, index) => {
    const last = systems[Math.min(index + each, systems.length) - 1];
    return index % each === 0 && last ? [{ from, to: last.to }] : [];
  });
}

/** A length along the piece, in percent of its bars. */
function share(bars: number, of: Overview): string {
  return `${Math.round((10_000 * bars) / of.bars) / 100}%`;
}

function rowMarkup(of: Overview, cells: readonly (Cell | undefined)[], foot: number): string {
  const blocks = cells.map((cell, at) => {
    if (!cell) return '';
    const span = `x="${share(at * of.each, of)}" width="${share(Math.min(of.each, of.bars - at * of.each), of)}"`;
    const height = heightOf(cell.level);
    const tune = cell.hasTune ? `<rect class="tune" ${span} y="${foot + 1}" height="3"/>` : '';
    return `<rect ${span} y="${foot - height}" height="${height}"/>${tune}`;
  });
  return `<line x2="100%" y1="${foot}" y2="${foot}"/>${blocks.join('')}`;
}

function heightOf(level: number): number {
  const part = Math.max(0, Math.min(1, level / (dynamicMarks.length - 1)));
  return Math.round(10 * (shortest + part * (tallest - shortest))) / 10;
}

/** A link over the columns of a place; who does not see it hears who plays there. */
function linkMarkup({ parts }: Sheet, of: Overview, place: Place, isShown: boolean): string {
  const { from, to } = place;
  const x = share(from - of.first, of);
  const number = isShown ? `<text x="${x}" dx="3" y="12">${from}</text>` : '';
  const playing = parts.flatMap(({ name }, part) => {
    const here = cellsIn(of, part, place);
    return here.length > 0 ? [{ name, here }] : [];
  });
  const tune = playing.filter(({ here }) => here.some(({ hasTune }) => hasTune)).map(({ name }) => name);
  const loudest = Math.max(...playing.flatMap(({ here }) => here.map(({ level }) => level)));
  const mark = dynamicMarks[Math.max(0, Math.min(dynamicMarks.length - 1, Math.round(loudest)))];
  const said = [
    `${formatBars([place])}: ${playing.length === 0 ? 'nobody plays' : playing.map(({ name }) => name).join(', ')}`,
    ...(tune.length === 0 ? [] : [`the tune in ${tune.join(', then ')}`]),
    ...(playing.length === 0 ? [] : [`up to ${mark}`]),
  ].join('; ');
  return `<a href="#system-${from}" aria-label="${plain(said)}"><rect x="${x}" y="0" width="${share(to - from + 1, of)}" height="100%"/><line x1="${x}" x2="${x}" y2="100%"/>${number}</a>`;
}

function cellsIn({ first, each, rows }: Overview, part: number, { from, to }: Place): readonly Cell[] {
  const last = Math.floor((to - first) / each);
  return (rows[part] ?? [])
    .slice(Math.floor((from - first) / each), last + 1)
    .filter((cell) => cell !== undefined);
}
