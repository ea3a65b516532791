// YAML becomes a cue, or all that is wrong with it.
import { type Diagnostic, diagnostic, type Outcome } from '../../diagnostics/index.js';
import { sourceOf } from '../../map/index.js';
import { judge, parseYaml, type ReadYaml, wholeFile } from '../../yaml/index.js';
import type { Cue } from '../types.js';
import { assemble } from './assemble.js';
import { cueTexts } from './texts.js';
import validate from './validator.generated.js';

export { isCue } from './is-cue.js';
export { strayPath } from './path.js';

/** The largest cue that is read unless a limit says otherwise. Unit: bytes. */
const largest = 256 * 1024;

/**
 * Reads a cue file: YAML, then its shape (schema), then its meaning. Everything that is wrong is reported at once, in the
 * order of the file. The files that it names are not opened.
 */
export function readCue(
  bytes: Uint8Array,
  file: string,
  { maxBytes = largest }: { readonly maxBytes?: number } = {},
): Outcome<Cue> {
  if (bytes.length > maxBytes)
    return refuse(
      'map-too-large',
      file,
      `the cue is larger than ${Math.round(maxBytes / 1024)} KB`,
      '--max-map KB raises the limit; see that this is a cue at all',
    );
  const { value: yaml, diagnostics: found } = parseYaml(bytes, file);
  if (!yaml) return { value: undefined, diagnostics: found };
  if (yaml.root.data === null)
    return refuse(
      'map-empty',
      file,
      'there is nothing in it',
      'keyslip init --cue IN.mid writes a cue to begin from',
    );
  const errors = validate(yaml.root.data) ? [] : (validate.errors ?? []);
  const { diagnostics: misshapen, faulty } = judge(yaml, errors, cueTexts);
  const diagnostics: Diagnostic[] = [...found, ...misshapen];
  const source = sourceOf(yaml, faulty, diagnostics);
  const cue = assemble({ ...source, middleC: source.middleC ?? (says60(yaml) ? undefined : 4) });
  return { value: diagnostics.length > 0 ? undefined : cue, diagnostics: inOrder(diagnostics) };
}

function says60({ root }: ReadYaml): boolean {
  return root.keys.has('note-60');
}

function refuse(code: Diagnostic['code'], file: string, message: string, hint: string): Outcome<never> {
  return {
    value: undefined,
    diagnostics: [diagnostic(code, wholeFile(file), message, hint)],
  };
}

function inOrder(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  const at = ({ place }: Diagnostic) => (place.kind === 'text' ? [place.line, place.column] : [0, 0]);
  return [...diagnostics].sort((a, b) => {
    const [[line = 0, column = 0], [otherLine = 0, otherColumn = 0]] = [at(a), at(b)];
    return line - otherLine || column - otherColumn;
  });
}
