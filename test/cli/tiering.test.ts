import { spawnSync } from 'node:child_process';
import { expect, it } from 'vitest';
import { tiersOf } from '../../src/cli/tiering.js';

// Its outside is what V8 says of its own flags.
it('knows the flags of this V8, and their values where nobody sets them', () => {
  const { stdout } = spawnSync(process.execPath, ['--v8-options'], { encoding: 'utf8' });
  for (const { flag, usual } of tiersOf(process.versions.v8))
    expect(stdout).toContain(`default: ${flag}=${usual}\n`);
});

it('leaves versions of V8 alone that it does not know', () => {
  expect(tiersOf('11.3.244.8-node.33').map(({ flag }) => flag)).toEqual(['--interrupt-budget']);
  expect(tiersOf('13.6.233.17-node.53')).toHaveLength(2);
  expect(tiersOf('99.1.2.3')).toEqual([]);
  expect(tiersOf('constructor')).toEqual([]);
});
