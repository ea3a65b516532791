import { cueSchemaText as ofCues } from '../../cue/index.js';
import { mapSchemaText as ofMaps } from '../../map/index.js';
import { exit, type Io } from '../io.js';
import type { SchemaKind } from '../schema-kinds.js';

/** `keyslip schema`: prints the JSON Schema of maps, or of cues. */
export async function schemaCommand(kind: SchemaKind, io: Io): Promise<number> {
  io.out(kind === 'cue' ? ofCues : ofMaps);
  return exit.done;
}
