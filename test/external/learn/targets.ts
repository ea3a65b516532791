import { learn } from '../../../src/learn/index.js';
import { agreement, labelled, mean } from '../../learn/labelled.js';

/** Prints how well and how fast ladders are found: node .config/run.mjs test/external/learn/targets.ts [SEEDS] */
const seeds = Number(process.argv[2] ?? 10);
const noises = [0, 0.05, 0.1];
const rows: readonly (readonly [
  name: string,
  length: number,
  faults: { forgotten?: number; late?: boolean },
])[] = [
  ['label noise 0–10 %', 1000, {}],
  ['label noise 0–10 %', 200, {}],
  ['25 % of switches forgotten', 1000, { forgotten: 0.25 }],
  ['every switch a note late', 1000, { late: true }],
  ['label noise 0–10 %', 5000, {}],
  ['label noise 0–10 %', 50_000, {}],
];

for (const [name, length, faults] of rows) {
  const agrees: number[] = [];
  const more: number[] = [];
  const seconds: number[] = [];
  for (let seed = 1; seed <= (length > 1000 ? Math.min(3, seeds) : seeds); seed++) {
    const rules = 3 + (seed % 5);
    const noise = faults.forgotten ? 0 : (noises[seed % 3] ?? 0);
    const { notes, ladder, next } = labelled(seed, length, rules, { noise, ...faults });
    const before = process.cpuUsage().user;
    const learned = learn(notes);
    seconds.push((process.cpuUsage().user - before) / 1e6);
    agrees.push(agreement(learned.ladder, ladder, next));
    more.push(learned.ladder.length - rules);
  }
  console.info(
    `${length} notes, ${name}: agrees with the truth on ${mean(agrees).toFixed(4)} of fresh notes (worst ${Math.min(...agrees).toFixed(3)}), at most ${Math.max(...more)} rules more, ${mean(seconds).toFixed(1)} s of processor (most ${Math.max(...seconds).toFixed(1)})`,
  );
}
