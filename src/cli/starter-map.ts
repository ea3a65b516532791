/** What `keyslip init` writes. A test checks that it is a map in order. */
export const starterMap = `# yaml-language-server: $schema=map.schema.json
# (An editor completes and explains keys by that file; keyslip schema > map.schema.json writes it, if it is not there)
#
# A map tells keyslip how ONE instrument of ONE library is switched. Change the values, then: keyslip check THIS-FILE
format: keyslip-map/1
library: My Library
instrument: Violins
family: strings              # strings, woodwind, brass, percussion, keyboard, plucked, voice, other
note-60: C4                  # how the library's manual spells MIDI note 60 (middle C): C3, C4 or C5
range: [G3, E7]              # the lowest and highest note it plays, spelled as in its manual

switching:
  notes: latching            # latching: a key switches until the next one. momentary: only while it is held
  lead: 20ms                 # how long before a note its switch is sent

# One entry for each recording. A switch is one of:
#   {note: C1}   {controller: 20, value: 10}   {program: 48}   {channel: 2}
# or a list of them. The names are yours; the rules below use them.
articulations:
  short:
    means: [staccato, staccatissimo]   # marks in the music that ask for it, written as a text event: [staccato]
    switch: {note: C1}
    loudness: velocity
  long:
    means: [tenuto]
    switch: {note: D1}
    loudness: controller
  joined:
    switch: {note: E1}
    loudness: controller
  plucked:
    means: [pizz.]
    switch: {note: F1}
    loudness: velocity

steadiness: 15%              # a note this close to a limit may keep what its neighbours have

# Read from the top: the first rule that fits a note decides. The last one has no condition.
rules:
  - marked: pizz.
    use: plucked
  - when: {overlaps-next: true}        # held into the next note: a joined line
    use: joined
  - when: {held: {below: 200ms}}       # held is measured from the key's going down to its release
    use: short
  - use: long

# The controller that makes it louder, and its values that sound like these marks; for cues, and for the balance.
dynamics:
  controller: 1
  levels: {pp: 14, p: 34, mp: 54, mf: 72, f: 94, ff: 118}

# Try the rules on notes of your own; keyslip check runs these.
examples:
  - notes: [{pitch: G4, held: 90ms}, {pitch: A4, held: 600ms}]
    expect: [short, long]
  - notes: [{pitch: G4, held: 400ms, pace: 350ms}, {pitch: A4, held: 300ms}]
    expect: [joined, joined]           # steadiness keeps the last note of a joined line with it
  - notes: [{pitch: G4, held: 400ms, marked: pizz.}]
    expect: [plucked]
`;
