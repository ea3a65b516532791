import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  gaussian8,
  gridTable,
  heldBackSeeds,
  type Jitter,
  tempi,
  uniform15,
} from '../timing/performances.js';
import { commandRows, processRows } from './commands.js';
import { compiledHead, compiledRows, cueRows } from './compiled.js';
import { growth } from './growth.js';
import { hearHead, hearRows } from './hear.js';
import { printPages } from './sheet.js';
import { type Row, type Table, writeTables } from './table.js';

/** The share of beats whose subdivision is found, on performances that the costs were not tuned on. */
function gridRows(name: string, jitter: Jitter): readonly Row[] {
  const cells = gridTable(heldBackSeeds, jitter);
  const share = (of: typeof cells) => {
    const [right, beats] = of.reduce(([r, b], cell) => [r + cell.right, b + cell.beats], [0, 0]);
    return `${((100 * right) / beats).toFixed(1)} %`;
  };
  return [...new Set(cells.map(({ kind }) => kind))].map((kind) => {
    const row = cells.filter((cell) => cell.kind === kind);
    return [`${kind}, ${name}`, ...row.map((cell) => share([cell])), share(row)];
  });
}

const folder = mkdtempSync(join(tmpdir(), 'keyslip-bench-'));
const tables: Table[] = [];
/** Each table is told as soon as it is there, and all of them are written. */
function add(table: Table): void {
  console.log(
    `${table.title}\n${[table.head, ...table.rows].map((cells) => `  ${cells.join('  ')}`).join('\n')}\n`,
  );
  tables.push(table);
  writeTables(tables);
}

add({
  title: 'Compiling, in one process',
  says: 'Both sides are given the same bytes: keyslip reads, compiles and writes them; midi-file, and keyslip itself, only read and write them.',
  head: compiledHead,
  rows: compiledRows(),
});
add({
  title: 'Cues',
  says: 'The side to believe is keyslip’s own reading and writing, which is linear; midi-file copies its whole output for every track that it writes, which flatters whatever is divided by it.',
  head: compiledHead,
  rows: cueRows(),
});
add({
  title: 'Whole processes',
  says: '`keyslip compile` against an empty Node script, and against `midicsv in | csvmidi` (C programs), which only read and write.',
  head: ['what', 'keyslip', 'empty Node', '÷ empty', 'midicsv and csvmidi', '÷ these'],
  rows: processRows(folder),
});
add({
  title: 'Every command',
  says: 'One run each: CPU time, peak memory, and how much more 200,000 notes take than 20,000.',
  head: ['command', '2,000 notes', '20,000 notes', '200,000 notes', 'growth'],
  rows: commandRows(folder),
});
add({
  title: 'Hearing',
  says: '`keyslip hear`, the whole process, from its start; rendering is in one thread.',
  head: hearHead,
  rows: hearRows(folder),
});
add({
  title: 'Growth of single steps',
  says: 'Ten times the input: 10 where the cost follows it.',
  head: ['step', '8,000', '80,000', 'growth'],
  rows: growth(),
});
add({
  title: 'Grids that are found',
  says: 'The share of beats whose subdivision is found, on performances that the costs were not tuned on; by quarters a minute.',
  head: ['playing', ...tempi.map(String), 'all'],
  rows: [...gridRows('±15 ms evenly', uniform15), ...gridRows('sd 8 ms', gaussian8)],
});
await printPages(join(folder, 'sheet.html'), add);
rmSync(folder, { recursive: true });
