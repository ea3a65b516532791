// Property tests draw their cases from one seed, so that a run can be repeated; KEYSLIP_SEED=N draws others,
// and KEYSLIP_RUNS=N another number of them where a test does not say how many.
import fc from 'fast-check';

// Here alone it is said how many a plain run draws (test/support/draws.ts reads it).
process.env.KEYSLIP_RUNS ??= '10';

fc.configureGlobal({
  seed: Number(process.env.KEYSLIP_SEED ?? 1),
  numRuns: Number(process.env.KEYSLIP_RUNS),
});
