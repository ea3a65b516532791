import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';

/**
 * The demo: checks a map, switches the embedded recording with it, and says why each note came
 * out as it did; then compiles a whole piece from its cue, and writes it as a sheet to look at.
 */
const recording = 'maps/demo/last-boat.mid';
const map = 'maps/saltmarsh-horns.yaml';
const output = 'dist/demo/last-boat.switched.mid';

mkdirSync('dist/demo', { recursive: true });
for (const words of [
  ['check', map],
  ['compile', recording, '--map', map, '-o', output],
  ['explain', recording, '--map', map],
  ['cue', 'maps/demo/skerry-point.cue.yaml', '-o', 'dist/demo/skerry-point.switched.mid', '--prove'],
  ['sheet', 'maps/demo/skerry-point.cue.yaml', '-o', 'dist/demo/skerry-point.html'],
]) {
  console.log(`\n$ keyslip ${words.join(' ')}\n`);
  const { status } = spawnSync(process.execPath, ['dist/keyslip.js', ...words], { stdio: 'inherit' });
  if (status !== 0) process.exit(status ?? 1);
}
console.log(`\nThe result is ${output}. Load it beside a library whose switches are those of the map.`);
console.log('The sheet is dist/demo/skerry-point.html: open it in a browser.');
console.log('Turn the volume down before you first play it on headphones: a wrong switch can be loud.');
