import type { Bar, BoundFinding, Fall, Measure, Suggested } from './suggest.js';

/** The width of the longest bar, in characters. */
const width = 40;

const titles: Readonly<Record<Measure, string>> = {
  'held-share': 'held-share: how much of its interval each note fills',
  held: 'held: how long each note is held',
  pace: 'pace: from onset to onset',
};

/** A take's lengths and a map's bounds, for a terminal. */
export function suggestText({ falls, bounds }: Suggested): string {
  const parts = falls
    .filter(({ notes }) => notes > 0)
    .map((fall) =>
      fallText(
        fall,
        bounds.filter(({ bound }) => bound.measure === fall.measure),
      ),
    );
  return parts.length === 0 ? 'no notes' : parts.join('\n\n');
}

function fallText(fall: Fall, findings: readonly BoundFinding[]): string {
  return [
    `${titles[fall.measure]} (${count(fall.notes, 'note')})`,
    ...histogram(fall, findings),
    ...breaksLine(fall),
    ...findings.flatMap(findingLines),
  ].join('\n');
}

/** One line for each bar; a bound of the map is named beside the bar that it falls into. */
function histogram({ measure, bars }: Fall, findings: readonly BoundFinding[]): readonly string[] {
  const most = Math.max(...bars.map(({ notes }) => notes));
  const labels = bars.map((bar) => labelOf(measure, bar));
  const longest = Math.max(...labels.map((label) => label.length));
  const digits = String(most).length;
  return bars.map((bar, index) => {
    const length = bar.notes === 0 ? 0 : Math.max(1, Math.round((width * bar.notes) / most));
    const here = findings.filter(({ bound }) => bound.value >= bar.from && bound.value < bar.to);
    const named = here.length === 0 ? '' : ` ← ${here.map(({ bound }) => bound.text).join(', ')}`;
    const number = String(bar.notes).padStart(digits);
    return `  ${(labels[index] ?? '').padStart(longest)} ${number} ${'█'.repeat(length)}${named}`.trimEnd();
  });
}

function labelOf(measure: Measure, { from, to }: Bar): string {
  const unit = measure === 'held-share' ? '%' : 'ms';
  const edge = (value: number) => String(Math.round(value));
  return to === Infinity ? `from ${edge(from)}${unit}` : `${edge(from)}–${edge(to)}${unit}`;
}

function breaksLine({ breaks, measure }: Fall): readonly string[] {
  if (breaks.length === 0) return ['  no natural break: one heap'];
  const unit = measure === 'held-share' ? '%' : 'ms';
  const told = breaks.map(
    ({ bound, lowest, depth }) =>
      `${bound.text} (lowest at ${Math.round(lowest)}${unit}, ${Math.round(depth * 100)} % of the lower heap)`,
  );
  return [`  natural ${breaks.length === 1 ? 'break' : 'breaks'}: ${told.join(', ')}`];
}

function findingLines({
  bound,
  below,
  near,
  notes,
  cutsHeap,
  alternatives,
  switches,
}: BoundFinding): readonly string[] {
  const heap = cutsHeap ? ', and it cuts through a heap' : '';
  const per = switches === undefined ? '' : `; ${switches.toFixed(1)} switches in 100 notes`;
  return [
    `  the map's ${bound.text}: ${below} of ${notes} below, ${near} within 10 % of it${heap}${per}`,
    ...alternatives.map((other) => {
      const changed =
        other.changed === undefined ? '' : `, ${count(other.changed, 'articulation')} would change`;
      const then = other.switches === undefined ? '' : `, ${other.switches.toFixed(1)} switches in 100 notes`;
      return `    at ${other.bound.text}: ${other.near} within 10 %, ${count(other.crossing, 'note')} would cross${changed}${then}`;
    }),
  ];
}

function count(number: number, one: string): string {
  return `${number} ${one}${number === 1 ? '' : 's'}`;
}
