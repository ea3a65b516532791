import { schemaText } from '../../read/map/schema.generated.js';
import { exit, type Io } from '../io.js';

/** `keyslip schema`: prints the JSON Schema of maps. */
export async function schemaCommand(io: Io): Promise<number> {
  io.out(schemaText);
  return exit.done;
}
