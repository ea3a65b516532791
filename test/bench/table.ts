import { readFileSync, writeFileSync } from 'node:fs';
import os from 'node:os';

/** A row of a table: its cells. */
export type Row = readonly string[];

export interface Table {
  readonly title: string;
  /** What is compared with what. */
  readonly says: string;
  readonly head: Row;
  readonly rows: readonly Row[];
}

/** Writes tables with the machine and the date into the bench's README, behind what stands there by hand. */
export function writeTables(tables: readonly Table[]): void {
  const path = 'test/bench/README.md';
  const mark = '<!-- Written by `npm run bench`. -->';
  const [before = ''] = readFileSync(path, 'utf8').split(mark);
  const [cpu] = os.cpus();
  const machine = `${new Date().toISOString().slice(0, 10)}; Node ${process.version}; ${os.cpus().length} × ${cpu?.model.trim() ?? 'unknown'}; ${Math.round(os.totalmem() / 2 ** 30)} GB; load when it began and ended: ${began.toFixed(1)}, ${load().toFixed(1)}.`;
  writeFileSync(path, `${before}${mark}\n\n${machine}\n\n${tables.map(text).join('\n\n')}\n`);
}

const load = () => os.loadavg()[0] ?? 0;
const began = load();

function text({ title, says, head, rows }: Table): string {
  const line = (cells: Row) => `| ${cells.join(' | ')} |`;
  const rule = line(head.map(() => '---'));
  return [`## ${title}`, '', says, '', line(head), rule, ...rows.map(line)].join('\n');
}
