// Property tests draw their cases from one seed, so that a run can be repeated; KEYSLIP_SEED=N draws others.
import fc from 'fast-check';

fc.configureGlobal({ seed: Number(process.env.KEYSLIP_SEED ?? 1) });
