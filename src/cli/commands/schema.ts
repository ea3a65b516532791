import { readFileSync } from 'node:fs';
import { exit, type Io } from '../io.js';

/** `keyslip schema`: prints the JSON Schema of maps. */
export async function schemaCommand(io: Io): Promise<number> {
  io.out(readFileSync(new URL('../schemas/map.schema.json', import.meta.url), 'utf8'));
  return exit.done;
}
