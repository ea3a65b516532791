import { instrumentOf } from '../../music/index.js';

/** General MIDI level 1 sound set (RP-003, table 2), on the wire; voices are those of the choir. */
const programs: Readonly<Record<string, number>> = {
  piccolo: 72,
  flute: 73,
  'alto flute': 73,
  oboe: 68,
  'English horn': 69,
  clarinet: 71,
  'bass clarinet': 71,
  bassoon: 70,
  contrabassoon: 70,
  horn: 60,
  trumpet: 56,
  trombone: 57,
  'bass trombone': 57,
  tuba: 58,
  timpani: 47,
  harp: 46,
  violin: 40,
  viola: 41,
  cello: 42,
  'double bass': 43,
  soprano: 52,
  alto: 52,
  tenor: 52,
  baritone: 52,
  bass: 52,
};

/** The program of General MIDI that an instrument's name tells; undefined where it tells none. */
export function programOfName(name: string): number | undefined {
  const instrument = instrumentOf(name);
  return instrument === undefined ? undefined : programs[instrument];
}
