import { readFileSync } from 'node:fs';
import { parseMidi, writeMidi } from 'midi-file';
import { compile } from '../../src/compile/index.js';
import { readMap } from '../../src/map/read/index.js';
import { readMidi } from '../../src/midi/read/index.js';
import { createHash } from 'node:crypto';
const [file='', mapFile='', n='5', full=''] = process.argv.slice(2);
const map = readMap(new Uint8Array(readFileSync(mapFile)), mapFile).value!;
const bytes = new Uint8Array(readFileSync(file));
const timing = full ? { compensate: true, joins: true, pull: 0.6, roll: { sdMs: 14, order: 'unordered' as const }, seed: 1 } : undefined;
function one() {
  const song = readMidi(bytes, 'a.mid').value!;
  const jobs = song.tracks.filter(t => true).map(({ number }) => ({ part: { track: number, trackName: '', channel: 0 }, map, ...(timing ? { timing } : {}) }));
  const { value, diagnostics } = compile(song, jobs);
  if (!value) throw new Error(JSON.stringify(diagnostics.slice(0,3)));
  return value.bytes;
}
const cpu = (f: () => unknown) => { const c = process.cpuUsage(); f(); const d = process.cpuUsage(c); return (d.user + d.system) / 1000; };
const ours: number[] = [], theirs: number[] = [];
let out: Uint8Array | undefined;
for (let i = 0; i < +n; i++) { ours.push(cpu(() => { out = one(); })); theirs.push(cpu(() => writeMidi(parseMidi(bytes)))); }
const med = (a: number[]) => [...a].sort((x, y) => x - y)[a.length >> 1]!;
console.log(`${mapFile.split('/').pop()} ${full} ours ${med(ours).toFixed(0)} midi-file ${med(theirs).toFixed(0)} ratio ${(med(ours) / med(theirs)).toFixed(2)} rss ${(process.resourceUsage().maxRSS/1024).toFixed(0)} sha ${createHash('sha256').update(out!).digest('hex').slice(0, 10)}`);
