import { lastWithin } from '../../../midi/index.js';
import { at } from '../markup.js';
import { curveFoot, type Lane } from './lane.js';

/** The dynamics curve of a part: its controller's values, each held until the next, and lines for p and f. */
export function curveLane({ part: { curve }, columns, y, rise }: Lane): string {
  if (!curve) return '';
  const heightOf = (value: number) => y - curveFoot - (value / 127) * rise;
  const { points } = curve;
  // What was set before the system holds at its beginning.
  const first = lastWithin(points.length, (index) => points[index]?.tick ?? 0, columns.from - 1) + 1;
  const before = points[first - 1];
  let path = before ? `M${at(columns.left)} ${at(heightOf(before.value))}` : '';
  for (let index = first; index < points.length; index++) {
    const point = points[index];
    if (!point || point.tick >= columns.to) break;
    const x = at(columns.xAt(point.tick));
    path += path === '' ? `M${x} ${at(heightOf(point.value))}` : `H${x}V${at(heightOf(point.value))}`;
  }
  if (path === '') return '';
  const start = path.slice(1, path.search(/ /u));
  const line = `${path}H${at(columns.right)}`;
  const foot = at(heightOf(0));
  const marks = curve.marks
    .filter(({ mark }) => mark === 'p' || mark === 'f')
    .map(({ mark, value }) => {
      const height = at(heightOf(value));
      return `<path class="level" d="M${at(columns.left)} ${height}H${at(columns.right)}"/><text class="mark" x="${at(columns.left - 60)}" y="${at(heightOf(value) + 55)}" text-anchor="end">${mark}</text>`;
    });
  return `<g class="curve">${marks.join('')}<path class="under" d="${line}V${foot}H${start}Z"/><path class="over" d="${line}"/></g>`;
}
