import type { StandIn } from '../types.js';

/** What stands in for a meaning in some families (all where none is named). */
export interface Row {
  /** Names under which a map may give the meaning; the names of M2-123 by their last part. */
  readonly means: readonly string[];
  readonly families?: readonly string[];
  readonly standIn: StandIn;
}

const short: StandIn = { length: { share: 0.5, mostMs: 180 }, attack: 63 };
const shortest: StandIn = { length: { share: 0.4, mostMs: 90 }, attack: 63, velocityScale: 1.05 };

/**
 * Stand-ins by meaning: the first row that fits. Programs are General MIDI level 1 (RP-003, table 2): 44 tremolo strings,
 * 45 pizzicato strings, 59 muted trumpet, 52 choir aahs, 53 voice oohs, 55 orchestra hit is not used. Lengths, velocities
 * and attacks are our own: a staccato sounds for half of its value (common practice, no source), and an accent is heard
 * as 1–3 dB by the law of velocity that SoundFont 2 sets as a default.
 */
export const rows: readonly Row[] = [
  {
    means: ['snap-pizzicato', 'bartok-pizzicato', 'bartók-pizzicato'],
    families: ['strings'],
    standIn: { program: 45, velocityScale: 1.2 },
  },
  { means: ['pizz.', 'pizzicato', 'pluck'], families: ['strings'], standIn: { program: 45 } },
  {
    means: ['col legno', 'col-legno-battuto'],
    families: ['strings'],
    standIn: { program: 45, length: { mostMs: 60 }, velocityScale: 0.7 },
  },
  {
    means: ['tremolo', 'trem.', 'tremolo-or-flutter-tongue', 'other-tremolo'],
    families: ['strings'],
    standIn: { program: 44 },
  },
  {
    means: ['con sord.', 'stopped', 'harmon-mute', 'half-muted', 'straight', 'cup'],
    families: ['brass'],
    standIn: { program: 59, velocityScale: 0.9 },
  },
  { means: ['con sord.', 'stopped'], families: ['voice'], standIn: { program: 53 } },
  { means: ['con sord.'], families: ['strings', 'woodwind'], standIn: { velocityScale: 0.8 } },
  { means: ['harmonic', 'artificial-harmonics', 'flautando'], standIn: { velocityScale: 0.7 } },
  {
    means: ['sul tasto', 'lontano'],
    families: ['strings', 'brass'],
    standIn: { velocityScale: 0.75, attack: 65 },
  },
  {
    means: [
      'staccatissimo',
      'spiccato',
      'sautillé',
      'sautille',
      'martellato',
      'martelé',
      'martele',
      'jeté',
      'jete',
    ],
    standIn: shortest,
  },
  {
    means: [
      ...['staccato', 'stacc.', 'double-tongue', 'triple-tongue'],
      ...['staccato-off-string', 'on-string', 'slurred-staccato'],
    ],
    standIn: short,
  },
  { means: ['accented-staccato'], standIn: { ...short, velocityScale: 1.15 } },
  { means: ['detached-legato', 'portato', 'long-staccato'], standIn: { length: { share: 0.8 } } },
  { means: ['tenuto', 'ten.', 'normal', 'detaché', 'detache'], standIn: { length: { share: 1 } } },
  { means: ['legato', 'molto-legato'], standIn: { length: { share: 1 }, attack: 65, velocityScale: 0.95 } },
  {
    means: ['strong-accent', 'marc.', 'marcato'],
    standIn: { length: { share: 0.85 }, attack: 63, velocityScale: 1.25 },
  },
  { means: ['accent', 'stress'], standIn: { attack: 63, velocityScale: 1.15 } },
  { means: ['soft-accent'], standIn: { velocityScale: 1.07 } },
  { means: ['unstress'], standIn: { velocityScale: 0.85 } },
  { means: ['arco', 'senza sord.', 'open', 'open-string', 'up-bow', 'down-bow'], standIn: {} },
];
