#!/usr/bin/python3
"""The treatments of the last evening, from a journal or a bundle's events.jsonl. It was written by
the data dictionary in storage/JOURNAL.md alone. Usage: rebuild_treatments.py FILE"""
import datetime
import json
import sqlite3
import sys

if open(sys.argv[1], "rb").read(6) == b"SQLite":
    lines = [row[0] for row in sqlite3.connect(sys.argv[1]).execute("SELECT event FROM events")]
    events = [json.loads(line) for line in lines]
else:
    events = [json.loads(line)["event"] for line in open(sys.argv[1], encoding="utf-8")]
events.sort(key=lambda e: (e["at_utc_ms"], e["device"], e["seq"]))
entry = lambda ref: (ref["device"], ref["seq"])
of = lambda *kinds: [e for e in events if e["kind"] in kinds]
back = {entry(e["body"]["strike"]) for e in of("strike_taken_back")}
strikes = {entry(e["body"]["entry"]): e["body"].get("instead")
           for e in of("entry_struck", "entry_corrected") if entry(e) not in back}
names = {}
for e in of("colony_added", "colony_changed"):
    names[e["body"]["colony"]] = e["body"].get("name", names.get(e["body"]["colony"]))
given = []
for e in of("vaporizer_set"):
    said = strikes.get(entry(e), {"body": e["body"]})  # None: struck, and nothing in its place
    when = datetime.datetime.fromtimestamp(e["at_utc_ms"] / 1000, datetime.timezone(
        datetime.timedelta(minutes=e["zone_offset_min"])))
    if said:
        given.append((when, names.get(said["body"]["colony"], "?"), said["body"]["dose"]))
last = max(when.date() for when, _, _ in given)
for when, colony, dose in sorted(given):
    if when.date() == last:
        print(f"{when.isoformat(timespec='seconds')},{colony},{dose}")
