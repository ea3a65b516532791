import { readCue } from '../../src/cue/read/index.js';
import type { Cue } from '../../src/cue/types.js';

/** A cue from its YAML after a usual head. Throws where it has errors. */
export function cueOf(yaml: string): Cue {
  const text = `format: keyslip-cue/1\nsource: in.mid\noutput: out.mid\n${yaml}`;
  const { value, diagnostics } = readCue(new TextEncoder().encode(text), 'test.cue.yaml');
  if (!value) throw new Error(diagnostics.map(({ code, message }) => `${code}: ${message}`).join('\n'));
  return value;
}
