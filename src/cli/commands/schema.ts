import { cueSchemaText as ofCues } from '../../cue/index.js';
import { mapSchemaText as ofMaps } from '../../map/index.js';
import { reportSchema } from '../../report/index.js';
import { exit, type Io } from '../io.js';
import type { SchemaKind } from '../schema-kinds.js';

/** `keyslip schema`: prints the JSON Schema of maps, of cues, or of what `--json` prints. */
export async function schemaCommand(kind: SchemaKind, io: Io): Promise<number> {
  if (kind === 'report') io.out(`${JSON.stringify(reportSchema(), null, 2)}\n`);
  else io.out(kind === 'cue' ? ofCues : ofMaps);
  return exit.done;
}
