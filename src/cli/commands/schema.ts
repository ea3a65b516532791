import { schemaText as ofCues } from '../../cue/read/schema.generated.js';
import { schemaText as ofMaps } from '../../map/read/schema.generated.js';
import { exit, type Io } from '../io.js';
import type { SchemaKind } from '../schema-kinds.js';

/** `keyslip schema`: prints the JSON Schema of maps, or of cues. */
export async function schemaCommand(kind: SchemaKind, io: Io): Promise<number> {
  io.out(kind === 'cue' ? ofCues : ofMaps);
  return exit.done;
}
