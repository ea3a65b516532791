import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { horns } from './compiled.js';
import { once, processMedians } from './measure.js';
import { recording, tracksOf } from './music.js';
import type { Row } from './table.js';

const program = 'dist/keyslip.js';
const sizes = [2000, 20_000, 200_000] as const;
/** A page of so many notes is of no use. */
const mostOnSheet = 20_000;

/** Whole processes against the general reader and writer of Debian, where it is installed, and an empty start. */
export function processRows(folder: string): readonly Row[] {
  const hasCsv = spawnSync('bash', ['-c', 'command -v midicsv csvmidi']).status === 0;
  writeFileSync(join(folder, 'empty.mjs'), '');
  const rows = sizes.map((notes): Row => {
    const [file, out] = [join(folder, `${notes}.mid`), join(folder, 'out.mid')];
    writeFileSync(file, recording(notes));
    const lines = [
      `${process.execPath} ${program} compile ${file} --map ${horns} -o ${out} --quiet`,
      `${process.execPath} ${join(folder, 'empty.mjs')}`,
      hasCsv ? `midicsv ${file} | csvmidi > ${out}` : 'false || true',
    ];
    const [own = 0, empty = 1, csv = 0] = processMedians(notes > 20_000 ? 3 : 7, ...lines);
    const other = hasCsv ? [`${csv.toFixed(0)} ms`, (own / csv).toFixed(2)] : ['not installed', ''];
    return [
      `${notes.toLocaleString('en')} notes`,
      `${own.toFixed(0)} ms`,
      `${empty.toFixed(0)} ms`,
      (own / empty).toFixed(2),
      ...other,
    ];
  });
  return rows;
}

/** Every command on music, once at each size: CPU time and peak memory. */
export function commandRows(folder: string): readonly Row[] {
  for (const notes of sizes) {
    writeFileSync(join(folder, `${notes}.mid`), recording(notes));
    writeFileSync(join(folder, `${notes}-16.mid`), tracksOf(16, Math.round(notes / 16)));
  }
  const words: Readonly<Record<string, (notes: number) => readonly string[]>> = {
    compile: (notes) => ['compile', at(notes), '--map', horns, '-o', at(notes, '.out')],
    explain: (notes) => ['explain', at(notes), '--map', horns],
    prove: (notes) => ['prove', at(notes, '.out'), '--map', horns, '--against', at(notes)],
    inspect: (notes) => ['inspect', at(notes)],
    'inspect --brief': (notes) => ['inspect', at(notes), '--brief'],
    compare: (notes) => ['compare', horns, horns, at(notes)],
    'sheet, 16 parts': (notes) => [
      'sheet',
      at(notes, '-16'),
      ...Array.from({ length: 16 }, (_, index) => ['--map', `${index + 1}=${horns}`]).flat(),
      '-o',
      join(folder, 'sheet.html'),
    ],
  };
  function at(notes: number, more = ''): string {
    return join(folder, `${notes}${more}.mid`);
  }
  return Object.entries(words).map(([name, of]): Row => {
    const found = sizes.map((notes) =>
      name.startsWith('sheet') && notes > mostOnSheet ? undefined : once([program, ...of(notes)]),
    );
    const cells = found.map((one) =>
      one ? `${(one.ms / 1000).toFixed(2)} s, ${one.mb.toFixed(0)} MB` : '–',
    );
    const [, middle, large] = found;
    return [name, ...cells, middle && large ? (large.ms / middle.ms).toFixed(1) : ''];
  });
}
