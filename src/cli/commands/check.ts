import { runExamples } from '../../check/examples.js';
import { escapeText } from '../../diagnose/escape.js';
import { type CommonOptions, jsonOf, loadMap, printJson, show, status } from '../context.js';
import { exit, type Io } from '../io.js';

/** `keyslip check`: validates maps and runs their examples. */
export async function checkCommand(
  files: readonly string[],
  options: CommonOptions,
  io: Io,
): Promise<number> {
  const results = [];
  for (const file of files) {
    const { value: map, diagnostics } = await loadMap(file, options, io);
    const all = [...diagnostics, ...(map ? runExamples(map) : [])];
    results.push({ file, map, diagnostics: all });
  }
  if (options.json)
    printJson(
      {
        files: results.map(({ file, diagnostics }) => ({
          file,
          ok: status(diagnostics, options) === exit.done,
          diagnostics: jsonOf(diagnostics),
        })),
      },
      io,
    );
  for (const { file, map, diagnostics } of results) {
    show(diagnostics, options, io);
    if (options.quiet || options.json || !map || status(diagnostics, options) !== exit.done) continue;
    const { articulations, rules, examples } = map;
    io.out(
      `${escapeText(file)}: in order (${articulations.size} articulations, ${rules.length} rules, ${examples.length} examples)\n`,
    );
  }
  return results.some(({ diagnostics }) => status(diagnostics, options) !== exit.done)
    ? exit.errors
    : exit.done;
}
