import { type Diagnostic, diagnostic, isError, type Outcome } from '../../diagnostics/index.js';
import { judge, parseYaml, wholeFile } from '../../yaml/index.js';
import { checkMap } from '../checks/index.js';
import { sourceOf } from '../source/index.js';
import type { ArticulationMap } from '../types.js';
import { assemble } from './assemble.js';
import { type Bases, noBases, ownPath, withBases } from './base.js';
import { withNewWords } from './old-words.js';
import { mapTexts } from './texts.js';
import validate from './validator.generated.js';

/** The largest map that is read unless a limit says otherwise. Unit: bytes. */
const largest = 256 * 1024;

export interface ReadMapOptions {
  /** Unit: bytes. */
  readonly maxBytes?: number;
  readonly bases?: Bases;
}

/**
 * Reads an articulation map: YAML, then its shape (schema), then its meaning (checks). Everything that is wrong is
 * reported at once, in the order of the file; what the schema finds wrong does not keep the rest from being checked.
 * Warnings may stand beside a map. The examples are run by `check`, not here.
 *
 * @param bases the files that lend to the map, which were read by whoever reads it
 */
export function readMap(
  bytes: Uint8Array,
  file: string,
  { maxBytes = largest, bases = noBases }: ReadMapOptions = {},
): Outcome<ArticulationMap> {
  if (bytes.length > maxBytes) return refuse(tooLarge(file, maxBytes));
  const { value: own, diagnostics: ofOwn } = parseYaml(bytes, file);
  if (!own) return { value: undefined, diagnostics: ofOwn };
  if (own.root.data === null) return refuse(empty(file));
  const {
    yaml: whole,
    bases: files,
    diagnostics: ofBases,
  } = withBases(own, bytes.length, bases, ownPath(file, bases));
  const { yaml, diagnostics: ofWords } = withNewWords(whole);
  const found = [...ofOwn, ...ofBases, ...ofWords];
  const { diagnostics: misshapen, faulty } = judge(
    yaml,
    validate(yaml.root.data) ? [] : (validate.errors ?? []),
    mapTexts,
  );
  // What a base would have lent is not told to be missing where the base cannot be read.
  const isLent = ofBases.some(isError);
  const told = misshapen.filter(({ code }) => !(isLent && code === 'missing-key'));
  const diagnostics: Diagnostic[] = [...found, ...told];
  const source = sourceOf(yaml, faulty, diagnostics);
  const map = { ...assemble(source), bases: files };
  diagnostics.push(...checkMap(map, source));
  const failed = diagnostics.some(isError);
  return { value: failed ? undefined : map, diagnostics: inOrder(diagnostics, [file, ...files]) };
}

function refuse(diagnostic: Diagnostic): Outcome<never> {
  return { value: undefined, diagnostics: [diagnostic] };
}

function tooLarge(file: string, maxBytes: number): Diagnostic {
  return diagnostic(
    'map-too-large',
    wholeFile(file),
    `the map is larger than ${Math.round(maxBytes / 1024)} KB`,
    '--max-map KB raises the limit; see that this is a map at all',
  );
}

function empty(file: string): Diagnostic {
  return diagnostic(
    'map-empty',
    wholeFile(file),
    'there is nothing in it',
    'keyslip init writes a map to begin from',
  );
}

/** In the order of the files, then of each. */
function inOrder(diagnostics: readonly Diagnostic[], files: readonly string[]): readonly Diagnostic[] {
  const file = ({ place }: Diagnostic) => files.indexOf(place.file);
  const line = ({ place }: Diagnostic) => (place.kind === 'text' ? place.line : 0);
  const column = ({ place }: Diagnostic) => (place.kind === 'text' ? place.column : 0);
  return [...diagnostics].sort((a, b) => file(a) - file(b) || line(a) - line(b) || column(a) - column(b));
}
