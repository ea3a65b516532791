import { type Fragment, oneOrList } from '../../yaml/index.js';
import { listOf, type Source, text } from '../source/index.js';
import type { MeasuredKind } from './kind.js';

export interface AfterCondition {
  readonly key: 'after';
  /** Names of articulations of the map. */
  readonly articulations: readonly string[];
}

/** `after`: the previous onset was given one of these articulations. The first note comes after none. */
export const after: MeasuredKind<AfterCondition> = {
  key: 'after',
  schema: {
    description:
      'What the previous onset was given: one articulation of this map, or a list of them. The first note fits none. Whether the map has them, keyslip check tells.',
    examples: [['joined', 'long']],
    ...oneOrList('name', { minItems: 1, maxItems: 500 }),
  } satisfies Fragment & { readonly description: string; readonly examples: readonly [unknown] },
  read: (source, tree) => ({
    key: 'after',
    articulations: listOf(tree).flatMap((one) => {
      const name = text(source, one);
      if (name === undefined) return [];
      reportUnknown(source, name, one);
      return [name];
    }),
  }),
  bind: ({ articulations }) => {
    const names = new Set(articulations);
    return (_, previous) => previous !== undefined && names.has(previous);
  },
  format: ({ articulations }) => `after ${articulations.join(' or ')}`,
  interval: () => undefined,
  implies: (narrow, wide) => narrow.articulations.every((name) => wide.articulations.includes(name)),
  durations: () => [],
  bounds: () => [],
};

function reportUnknown(source: Source, name: string, tree: Parameters<Source['report']>[1]): void {
  const { names } = source;
  if (!names || names.has(name)) return;
  const near = source.near(name, names);
  source.report(
    'unknown-articulation',
    tree,
    `"${name}" is no articulation of this map`,
    near === undefined ? 'after names what the previous note was given' : `did you mean "${near}"?`,
  );
}
