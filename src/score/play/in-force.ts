/**
 * Marks that hold until another of their family takes their place, and that `ordinary` ends or does not (common
 * practice, no source).
 */
interface Family {
  readonly names: readonly string[];
  /** The name that says that none of the others is in force, if there is one. */
  readonly plain: string | null;
  readonly endsAtOrdinary: boolean;
}

const families: readonly Family[] = [
  { names: ['arco', 'pizz.', 'snap-pizzicato', 'col legno'], plain: 'arco', endsAtOrdinary: true },
  {
    names: ['con sord.', 'senza sord.', 'stopped', 'open', 'half-muted', 'harmon-mute'],
    plain: 'senza sord.',
    endsAtOrdinary: false,
  },
  { names: ['sul pont.', 'sul tasto'], plain: null, endsAtOrdinary: true },
  { names: ['legato', 'stacc.', 'ten.', 'spiccato'], plain: null, endsAtOrdinary: true },
];

function familyOf(name: string): Family | undefined {
  return families.find(({ names }) => names.includes(name));
}

/** The marks in force after one more. A plain one takes its family out. */
export function withMark(inForce: readonly string[], name: string): readonly string[] {
  const family = familyOf(name);
  const kept = inForce.filter((other) => other !== name && !(family?.names.includes(other) ?? false));
  return family?.plain === name ? kept : [...kept, name];
}

/** The marks that are left where the ordinary sound is asked for. */
export function ordinary(inForce: readonly string[]): readonly string[] {
  return inForce.filter((name) => familyOf(name)?.endsAtOrdinary === false);
}
