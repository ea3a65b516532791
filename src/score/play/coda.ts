import type { Jump, ScoreMeasure } from '../model.js';

/**
 * Scores whose signs are only printed have two coda signs: the first stands where the coda is left for. It becomes the
 * jump that it means, unless a To Coda is written out.
 */
export function withCodaJumps(measures: readonly ScoreMeasure[]): readonly ScoreMeasure[] {
  const codas = measures.flatMap(({ jumps }, index) =>
    jumps.some(({ kind }) => kind === 'coda') ? [index] : [],
  );
  const isWritten = measures.some(({ jumps }) => jumps.some(({ kind }) => kind === 'tocoda'));
  const [first] = codas;
  if (isWritten || codas.length < 2 || first === undefined) return measures;
  return measures.map((measure, index) =>
    index === first ? { ...measure, jumps: measure.jumps.map(toCoda) } : measure,
  );
}

function toCoda(jump: Jump): Jump {
  return jump.kind === 'coda' ? { kind: 'tocoda', name: '', offset: null } : jump;
}
