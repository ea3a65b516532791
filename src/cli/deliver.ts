import type { Compiled } from '../compile/index.js';
import { type Diagnostic, isError } from '../diagnostics/index.js';
import type { Song } from '../midi/index.js';
import { type Report, type ReportNote, reportInPieces, summary } from '../report/index.js';
import { type CommonOptions, show, status } from './context.js';
import { type Output, putOutputs } from './files/put.js';
import { exit, type Io } from './io.js';
import { jsonOf, printJson, withFormat } from './json.js';
import { jsonPieces } from './json-pieces.js';
import { isClip } from './output-kind.js';
import { refuse } from './refuse.js';

/** What is done with results. */
export interface DeliverOptions extends CommonOptions {
  readonly prove?: boolean;
  /** Leave out of the result what it was compiled with. */
  readonly bare?: boolean;
}

/** A result: where it comes from, and where it goes. */
export interface Delivery {
  /** The music as the report names it. */
  readonly source: string;
  /** The music as the summary names it. */
  readonly input: string;
  readonly output: string;
  /** Where what was decided goes, if anywhere. */
  readonly report: string | undefined;
  /** The music that was compiled. */
  readonly song: Song;
  readonly result: Compiled;
}

/** A result as it is written and told. */
interface Made {
  readonly delivery: Delivery;
  /** undefined where a clip cannot be made of it. */
  readonly content: Uint8Array | undefined;
  /** Where each note belongs takes longer than the rest together: only for those who ask. */
  decided(): Report<Iterable<ReportNote>>;
  readonly diagnostics: readonly Diagnostic[];
}

/** Puts results in place, all of them or none, as MIDI files or as clips, and tells of them. */
export async function deliver(
  deliveries: readonly Delivery[],
  found: readonly Diagnostic[],
  options: DeliverOptions,
  io: Io,
): Promise<number> {
  const made: Made[] = [];
  for (const delivery of deliveries) made.push(await make(delivery));
  const diagnostics = [...found, ...made.flatMap((one) => one.diagnostics)];
  if (made.some(({ content }) => !content) || status(diagnostics, options) !== exit.done)
    return refuse(
      deliveries.map(({ input }) => input),
      diagnostics,
      options,
      io,
    );
  const failures = putOutputs(made.flatMap(outputsOf), io);
  const all = [...diagnostics, ...failures];
  if (options.json && !deliveries.some(({ output }) => output === '-')) {
    const told = made.map(({ decided, delivery: { output } }) => ({ ...decided(), output }));
    printJson({ ...(told.length > 1 ? { results: told } : told[0]), diagnostics: jsonOf(all) }, io);
  } else if (!options.quiet && !failures.some(isError))
    for (const { delivery } of made) tell(delivery, options, io);
  return show(all, options, io);
}

async function make(delivery: Delivery): Promise<Made> {
  const { source, output, song, result } = delivery;
  const clip = isClip(output) ? (await import('./clip.js')).clipOf(song, result) : undefined;
  return {
    delivery,
    content: clip ? clip.value : result.bytes,
    decided: () =>
      reportInPieces(
        source,
        result.parts.map((part) => ({ part })),
      ),
    diagnostics: clip?.diagnostics ?? [],
  };
}

function outputsOf({ delivery, content, decided }: Made): readonly Output[] {
  const { output, report: path } = delivery;
  return [
    ...(content ? [{ path: output, content }] : []),
    ...(path === undefined ? [] : [{ path, content: { text: jsonPieces(withFormat(decided())) } }]),
  ];
}

function tell({ input, output, result }: Delivery, { prove }: DeliverOptions, io: Io): void {
  const proved = prove ? 'Proved: every note sounds as decided, and nothing else was changed.\n' : '';
  const kept = isClip(output)
    ? 'Written as a clip: notes carry their articulations, and no switches are in it.\n'
    : '';
  (output === '-' ? io.err : io.out)(`${summary(result.parts, input, output)}${kept}${proved}`);
}
