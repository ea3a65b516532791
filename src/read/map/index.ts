import type { Diagnostic, Outcome } from '../../model/diagnostic.js';
import type { ArticulationMap } from '../../model/map.js';
import { parseYaml, wholeFile } from '../yaml/parse.js';
import { schemaDiagnostics } from '../yaml/schema.js';
import { assemble } from './assemble.js';
import { checkMap } from './checks/index.js';
import { contextOf } from './context.js';
import { mapTexts } from './texts.js';
import validate from './validator.generated.js';

/** The largest map that is read unless a limit says otherwise. Unit: bytes. */
const largest = 256 * 1024;

/**
 * Reads an articulation map: YAML, then its shape (schema), then its meaning (checks). Everything that is wrong is
 * reported at once, with its place; warnings may stand beside a map. The examples are run by `check`, not here.
 */
export function readMap(
  bytes: Uint8Array,
  file: string,
  { maxBytes = largest }: { readonly maxBytes?: number } = {},
): Outcome<ArticulationMap> {
  if (bytes.length > maxBytes) return refuse(tooLarge(file, maxBytes));
  const { value: yaml, diagnostics: found } = parseYaml(bytes, file);
  if (!yaml) return { value: undefined, diagnostics: found };
  if (yaml.root.data === null) return refuse(empty(file));
  if (!validate(yaml.root.data))
    return {
      value: undefined,
      diagnostics: inOrder([...found, ...schemaDiagnostics(yaml, validate.errors ?? [], mapTexts)]),
    };
  const problems: Diagnostic[] = [...found];
  const map = assemble(contextOf(yaml, problems));
  const diagnostics = inOrder([...problems, ...checkMap(map, yaml)]);
  const failed = diagnostics.some(({ severity }) => severity === 'error');
  return { value: failed ? undefined : map, diagnostics };
}

function refuse(diagnostic: Diagnostic): Outcome<never> {
  return { value: undefined, diagnostics: [diagnostic] };
}

function tooLarge(file: string, maxBytes: number): Diagnostic {
  return {
    code: 'map-too-large',
    severity: 'error',
    place: wholeFile(file),
    message: `the map is larger than ${Math.round(maxBytes / 1024)} KB`,
    hint: '--max-map KB raises the limit; see that this is a map at all',
  };
}

function empty(file: string): Diagnostic {
  return {
    code: 'map-empty',
    severity: 'error',
    place: wholeFile(file),
    message: 'there is nothing in it',
    hint: 'keyslip init writes a map to begin from',
  };
}

/** In the order of the file. */
function inOrder(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  const line = ({ place }: Diagnostic) => (place.kind === 'text' ? place.line * 1e6 + place.column : 0);
  return [...diagnostics].sort((a, b) => line(a) - line(b));
}
