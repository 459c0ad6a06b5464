#!/usr/bin/python3
"""Holds every #include to the table of rooms: arrows between rooms go downwards only."""
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
INCLUDE = re.compile(r'^\s*#include "([^"]+)"', re.MULTILINE)


def table():
    """Each room and the rooms that its line names; `x/*` stands for every room below x."""
    rooms = {}
    for line in (ROOT / "tests/rooms.txt").read_text().splitlines():
        if line and not line.startswith("#"):
            room, _, used = line.partition(":")
            rooms[room.strip()] = used.split()
    for room, used in rooms.items():
        plain = [u for u in used if not u.endswith("/*")]
        for star in (u[:-1] for u in used if u.endswith("/*")):
            plain += [r for r in rooms if r.startswith(star)]
        rooms[room] = plain
    return rooms


def all_below(rooms, room, seen):
    """The room and all that it may use, directly or not; a circle ends the program."""
    if room in seen:
        sys.exit(f"tests/rooms.txt: {' -> '.join([*seen, room])} is a circle")
    below = {room}
    for used in rooms[room]:
        if used not in rooms:
            sys.exit(f"tests/rooms.txt: {room} names {used}, which is no room")
        below |= all_below(rooms, used, [*seen, room])
    return below


def main():
    rooms = table()
    below = {room: all_below(rooms, room, []) for room in rooms}
    faults, arrows = [], set()
    sources = [p for top in ("engine", "storage", "ui") for p in sorted((ROOT / top).rglob("*"))]
    for path in (p for p in sources if p.suffix in (".h", ".cpp")):
        here = path.parent.relative_to(ROOT).as_posix()
        if here not in rooms:
            faults.append(f"{path.relative_to(ROOT)}: {here} is no room of tests/rooms.txt")
            continue
        for name in INCLUDE.findall(path.read_text()):
            there = name.rpartition("/")[0]
            if there not in below[here]:
                faults.append(f"{path.relative_to(ROOT)}: {here} may not use {name}")
            elif there != here:
                arrows.add((here, there))
    if "--arrows" in sys.argv:
        for here, there in sorted(arrows):
            print(f"{here} -> {there}")
    print("\n".join(faults) or f"{len(rooms)} rooms, {len(arrows)} arrows, all downwards")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
