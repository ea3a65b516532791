// Everything that tests put into the system's folder for temporary files stands in one of their own, which is taken away.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export default function setup() {
  const before = process.env.TMPDIR;
  const folder = mkdtempSync(join(tmpdir(), 'keyslip-tests-'));
  process.env.TMPDIR = folder;
  return () => {
    if (before === undefined) delete process.env.TMPDIR;
    else process.env.TMPDIR = before;
    rmSync(folder, { recursive: true, force: true, maxRetries: 3 });
  };
}
