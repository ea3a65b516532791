import { readFileSync } from 'node:fs';
import { analyse } from '../../src/compile/analyse/index.js';
import { decide } from '../../src/compile/decide/index.js';
import { collisions } from '../../src/compile/conflicts/index.js';
import { placeSwitches, weave } from '../../src/compile/switching/index.js';
import { readMap } from '../../src/map/read/index.js';
import { readMidi, writeMidi } from '../../src/midi/index.js';
const [file='', mapFile='', n='5'] = process.argv.slice(2);
const map = readMap(new Uint8Array(readFileSync(mapFile)), mapFile).value!;
const bytes = new Uint8Array(readFileSync(file));
const cpu = <T>(name: string, f: () => T): T => { const c = process.cpuUsage(); const v = f(); const d = process.cpuUsage(c); (times[name] ??= []).push((d.user + d.system) / 1000); return v; };
const times: Record<string, number[]> = {};
for (let i = 0; i < +n; i++) {
  const song = cpu('read', () => readMidi(bytes, 'a.mid').value!);
  const part = { track: 1, trackName: '', channel: 0 };
  const { line } = cpu('analyse', () => analyse(song, part, map));
  const { decisions } = cpu('decide', () => decide(line, map));
  const c = song.tracks[0]!.columns;
  cpu('collisions', () => collisions(c, line, decisions, map));
  const placed = cpu('place', () => placeSwitches(c, line.clock, part, decisions, map));
  const w = cpu('weave', () => weave(c, [placed]));
  cpu('write', () => writeMidi(song, new Map([[1, w]])));
}
const med = (a: number[]) => [...a].sort((x, y) => x - y)[a.length >> 1]!;
console.log(Object.entries(times).map(([k, v]) => `${k} ${med(v).toFixed(0)}`).join('  '), (process.resourceUsage().maxRSS/1024).toFixed(0));
