/** How files of banks end. */
export const bankEndings = ['.sf2', '.sf3', '.dls'] as const;

/**
 * Folders in which systems have banks, the likeliest first. `~` is the home folder. Debian's packages and other
 * distributions', FHS 3.0; DLS of the system on macOS and Windows (common practice, no source).
 */
export const bankPlaces: readonly string[] = [
  '/usr/share/sounds/sf2',
  '/usr/share/sounds/sf3',
  '/usr/share/soundfonts',
  '/usr/local/share/sounds/sf2',
  '/usr/local/share/sounds/sf3',
  '/usr/local/share/soundfonts',
  '~/.local/share/sounds/sf2',
  '~/.local/share/sounds/sf3',
  '~/.local/share/soundfonts',
  '~/Library/Audio/Sounds/Banks',
  '/Library/Audio/Sounds/Banks',
  '/System/Library/Components/CoreAudio.component/Contents/Resources',
  'C:\\Windows\\System32\\drivers',
  'C:\\soundfonts',
];

/** Of several banks in one folder, those whose names begin so are General MIDI sets; the first that is there is taken. */
export const preferredBanks: readonly string[] = ['default-GM', 'default', 'FluidR3_GM', 'TimGM6mb', 'gm'];
