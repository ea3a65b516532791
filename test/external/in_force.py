"""Reads compiled files with mido, and checks that at every melody note the decided switch is in force.

Standard input: JSON, a list of {file, track, own, keys, momentary, notes: [{tick, pitch, wanted}]}; `wanted` is the
articulation's switch. Standard output: JSON, a list of what is wrong.
"""

import json
import sys

import mido


def check(case):
    track = mido.MidiFile(case["file"], charset="latin1").tracks[case["track"] - 1]
    keys = {int(key): aspect for key, aspect in case["keys"].items()}
    melody = {}
    for note in case["notes"]:
        melody.setdefault((note["tick"], note["pitch"], note["channel"]), []).append(note)
    latched, held, controllers, programs, banks = {}, {}, {}, {}, {}
    wrong = []
    now = 0
    for message in track:
        now += message.time
        if message.is_meta or not hasattr(message, "channel"):
            continue
        channel = message.channel
        if message.type == "control_change":
            controllers[channel, message.control] = message.value
        elif message.type == "program_change":
            bank = controllers.get((channel, 0)), controllers.get((channel, 32))
            programs[channel] = message.program, bank
        elif message.type in ("note_on", "note_off") and message.note in keys and channel in case["channels"]:
            if message.type == "note_on" and message.velocity > 0:
                latched[channel, keys[message.note]] = message.note
                held.setdefault(channel, set()).add(message.note)
            else:
                held.get(channel, set()).discard(message.note)
        elif message.type == "note_on" and message.velocity > 0:
            due = melody.get((now, message.note, channel))
            if due:
                wrong += sounding(case, due.pop(0), channel, keys, latched, held, controllers, programs)
    missing = sum(len(notes) for notes in melody.values())
    if missing:
        wrong.append(f"{case['file']}: {missing} notes are missing")
    return wrong


def sounding(case, note, channel, keys, latched, held, controllers, programs):
    wanted = note["wanted"]
    where = f"{case['file']} tick {note['tick']}"
    if case["momentary"]:
        need = {message["key"] for message in wanted if message["kind"] == "note"}
        if held.get(channel, set()) != need:
            yield f"{where}: held {held.get(channel)}, needed {need}"
    for message in wanted:
        if message["kind"] == "note" and not case["momentary"]:
            if latched.get((channel, message.get("aspect"))) != message["key"]:
                yield f"{where}: latched {latched}, needed {message}"
        elif message["kind"] == "controller":
            if controllers.get((channel, message["controller"])) != message["value"]:
                yield f"{where}: needed {message}"
        elif message["kind"] == "program":
            if programs.get(channel, (None,))[0] != message["program"]:
                yield f"{where}: program {programs.get(channel)}, needed {message}"
        elif message["kind"] == "channel" and channel != message["channel"]:
            yield f"{where}: channel {channel}, needed {message}"


json.dump([problem for case in json.load(sys.stdin) for problem in check(case)], sys.stdout)
