import { spawnSync } from 'node:child_process';
import v8 from 'node:v8';
import vm from 'node:vm';

/** Frees what is no longer used, so that no side pays for another's garbage. */
v8.setFlagsFromString('--expose-gc');
const collectGarbage = vm.runInNewContext('gc') as () => void;

/** The median CPU time (user and system) of each side, taken in turn. Unit: ms. */
export function medians(rounds: number, ...sides: readonly (() => unknown)[]): readonly number[] {
  return inTurn(rounds, sides, (side) => {
    collectGarbage();
    const before = process.cpuUsage();
    side();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1000;
  });
}

/** The same for command lines of a shell, all their processes counted. Unit: ms. */
export function processMedians(rounds: number, ...lines: readonly string[]): readonly number[] {
  return inTurn(rounds, lines, (line) => {
    const { stderr, status } = spawnSync(
      'bash',
      ['-c', `TIMEFORMAT='@%U %S'; time { ${line}; } 2>/dev/null`],
      {
        encoding: 'utf8',
      },
    );
    const [, user = '', system = ''] = /@([\d.]+) ([\d.]+)/u.exec(stderr) ?? [];
    if (status !== 0) throw new Error(`a bench process failed: ${line}`);
    return 1000 * (Number(user) + Number(system));
  });
}

function inTurn<T>(rounds: number, sides: readonly T[], measure: (side: T) => number): readonly number[] {
  const times = sides.map((): number[] => []);
  for (let round = 0; round < rounds; round++)
    sides.forEach((side, index) => {
      times[index]?.push(measure(side));
    });
  return times.map((of) => of.sort((a, b) => a - b)[of.length >> 1] ?? 0);
}

/** What one run of a Node script takes: CPU time in ms, and the most memory that it ever had in MB. */
export function once(words: readonly string[]): { readonly ms: number; readonly mb: number } {
  const told =
    "process.on('exit',()=>{const u=process.resourceUsage();require('fs').writeSync(2,'@'+(u.userCPUTime+u.systemCPUTime)+' '+u.maxRSS)})";
  const preload = `data:text/javascript,import {createRequire} from 'node:module';const require=createRequire('/');${told}`;
  const { stderr, status } = spawnSync(process.execPath, ['--import', preload, ...words], {
    encoding: 'utf8',
    maxBuffer: 2 ** 30,
  });
  const [, cpu = '', rss = ''] = /@(\d+) (\d+)/u.exec(stderr) ?? [];
  if (cpu === '' || status === null) throw new Error(`a bench process failed: ${words.join(' ')}`);
  return { ms: Number(cpu) / 1000, mb: Number(rss) / 1024 };
}
