import type { Clef } from '../clef.js';
import type { Meter } from '../measures.js';
import { abbreviated } from './abbreviated.js';
import { element, xmlText } from './xml.js';

/** A part's staff as the score defines it. */
export interface StaffDefinition {
  /** The index of the part. */
  readonly part: number;
  readonly label: string;
  readonly clef: Clef;
}

/** The number of a part's staff; the one behind it is its lane. */
export function staffNumber(part: number): number {
  return 2 * part + 1;
}

/** The score's definition at its beginning. */
export function scoreDefinition(staves: readonly StaffDefinition[], meter: Meter, fifths: number): string {
  const content = staves.flatMap((staff) => [
    element(
      'staffDef',
      { n: staffNumber(staff.part), lines: 5 },
      labels(staff.label) + clef(staff.clef) + key(staff.clef, fifths) + meterSign(meter),
    ),
    element('staffDef', { n: staffNumber(staff.part) + 1, lines: 1 }, meterSign(meter, false)),
  ]);
  return element('scoreDef', {}, element('staffGrp', {}, content.join('\n')));
}

/** A change of time signature or key signature, or of both; '' where there is none. */
export function changedDefinition(
  staves: readonly StaffDefinition[],
  meter: Meter | undefined,
  fifths: number | undefined,
): string {
  const content = staves.flatMap((staff) => {
    const n = staffNumber(staff.part);
    const changed = (fifths === undefined ? '' : key(staff.clef, fifths)) + (meter ? meterSign(meter) : '');
    const lane = meter ? meterSign(meter, false) : '';
    return [
      ...(changed === '' ? [] : [element('staffDef', { n }, changed)]),
      ...(lane === '' ? [] : [element('staffDef', { n: n + 1 }, lane)]),
    ];
  });
  if (content.length === 0) return '';
  return element('scoreDef', {}, element('staffGrp', {}, content.join('\n')));
}

function labels(label: string): string {
  const clean = xmlText(label).trim();
  if (clean === '') return '';
  return element('label', {}, clean) + element('labelAbbr', {}, xmlText(abbreviated(label)));
}

function clef({ shape, line, octaves }: Clef): string {
  const place = octaves > 0 ? 'above' : 'below';
  return element('clef', {
    shape,
    line,
    ...(octaves === 0 || shape === 'perc' ? {} : { dis: 8, 'dis.place': place }),
  });
}

function key({ shape }: Clef, fifths: number): string {
  if (shape === 'perc') return '';
  const sig = fifths === 0 ? '0' : `${Math.abs(fifths)}${fifths > 0 ? 's' : 'f'}`;
  return element('keySig', { sig });
}

/** A lane's is not drawn, but tells how long its bars are. */
function meterSign({ count, unit }: Meter, isVisible = true): string {
  return element('meterSig', { count, unit, visible: isVisible ? undefined : 'false' });
}
