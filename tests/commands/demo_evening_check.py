#!/usr/bin/python3
"""Holds a played demo evening to what was derived by hand from its story.

Usage: demo_evening_check.py EXPECTED.json OUT_FOLDER DUE.json
The bundle is read with Python's own csv, json and hashlib, not with the program.
"""
import collections
import csv
import glob
import hashlib
import json
import re
import sys

wrong = []


def same(what, got, want):
    if got != want:
        wrong.append(f"{what}: {got!r}, not {want!r}")


def seconds(text):
    total = 0
    for part in text.split(":"):
        total = total * 60 + int(part)
    return total


def clock(s):
    return f"{s // 3600:02}:{s // 60 % 60:02}:{s % 60:02}"


def check_colony(name, want, row, start):
    if "passed_over" in want:
        same(f"{name} outcome", row["outcome"], "passed over")
        same(f"{name} because", row["passed_over_because"], want["because"])
        same(f"{name} time", row["when"][11:19], clock(start + seconds(want["passed_over"])))
        return
    at = {k: seconds(want[k]) for k in ("set", "lifted", "opened")}
    same(f"{name} outcome", row["outcome"], want.get("outcome", "treated"))
    same(f"{name} time", row["when"][11:19], clock(start + at["set"]))
    same(f"{name} dwell", int(row["dwell_s"]), at["lifted"] - at["set"])
    same(f"{name} seal", int(row["seal_s"]), at["opened"] - at["lifted"])
    same(f"{name} seal end inferred", row["seal_end_inferred"], "yes" if "by" in want else "no")
    same(f"{name} grams", int(row["dose_mg"]) / 1000, float(want["grams"]))
    same(f"{name} over label", row["over_label"], "yes" if want.get("over_label") else "no")


def check_register(expected, bundle, start):
    with open(bundle + "/data/register.csv", newline="", encoding="utf-8-sig") as f:
        rows = list(csv.DictReader(f))
    struck = [r for r in rows if r["struck"] == "yes"]
    standing = {r["colony"]: r for r in rows if r["struck"] == "no"}
    same("colonies of the register", sorted(standing), sorted(expected["colonies"]))
    same("rows that stand", len(rows) - len(struck), len(expected["colonies"]))
    for name, want in expected["colonies"].items():
        if name in standing:
            check_colony(name, want, standing[name], start)
            same(f"{name} comes back", standing[name]["come_back"] != "", "come_back" in want)
    want = expected["struck"]
    same("struck", [(r["colony"], r["when"][11:19], r["struck_because"]) for r in struck],
         [(want["colony"], clock(start + seconds(want["set"])), want["because"])])


def check_log(expected, bundle, start):
    with open(bundle + "/data/day.csv", newline="", encoding="utf-8-sig") as f:
        rows = list(csv.DictReader(f))
    same("lines of day.csv", len(rows), sum(expected["entries"].values()))
    last = {r["kind"]: r["time"] for r in rows}  # the last entry of each kind
    for kind, time in expected["log"].items():
        same(f"time of {kind}", last.get(kind), time)
    covered = {r["colony"]: r["time"] for r in rows if r["kind"] == "colony_covered"}
    for name, want in expected["colonies"].items():
        if "lifted" in want:
            at = start + seconds(want["lifted"]) - 60 * want.get("clock_back_min", 0)
            same(f"{name} covered in the log", covered.get(name), clock(at))
    opened = {r["colony"]: r["time"] for r in rows if r["kind"] == "colony_uncovered"}
    by_hand = {n: clock(start + seconds(w["opened"])) for n, w in expected["colonies"].items()
               if "opened" in w and "by" not in w}
    same("cloths taken off by hand", opened, by_hand)


def check_chain(expected, bundle):
    """hash = SHA-256(prev, event), both as bytes; each event links to the one before."""
    kinds = collections.Counter()
    before, numbers = None, []
    with open(bundle + "/data/events.jsonl", "rb") as f:
        for line in f.read().splitlines():
            record = json.loads(line)
            event = line[len(b'{"event":'):line.rindex(b',"hash":')]
            same("event of the line", json.loads(event), record["event"])
            prev = bytes.fromhex(record["prev"])
            seq = record["event"]["seq"]
            same(f"hash of {seq}", hashlib.sha256(prev + event).hexdigest(), record["hash"])
            if before is not None:
                same(f"link of {seq}", record["prev"], before)
            before = record["hash"]
            numbers.append(seq)
            kinds[record["event"]["kind"]] += 1
    same("entries of the bundle", dict(kinds), expected["entries"])
    first = numbers[0] if numbers else 0
    same("numbers of the entries", numbers, list(range(first, first + len(numbers))))


def check_due(expected, due):
    same("rounds due the morning after", due["rounds"], [])
    got = {b["colony"]: b["reasons"] for b in due["come_backs"]}
    want = {n: [w["come_back"]] for n, w in expected["colonies"].items() if "come_back" in w}
    same("come-back list", got, want)
    same("yards to come back to", {b["yard"] for b in due["come_backs"]}, {expected["yard"]})
    same("next round", [(c["round"], c["of"], c["planned"]) for c in due["coming"]],
         [(2, 4, "2026-08-19")])


def main():
    expected = json.load(open(sys.argv[1], encoding="utf-8"))
    bundles = glob.glob(sys.argv[2] + "/stick/*")
    same("bundles on the stick", len(bundles), 1)
    if not re.fullmatch(r".*/duskwalk-2026-08-14-[0-9a-f]{8}-[0-9a-f]{16}", bundles[0]):
        wrong.append(f"name of the bundle: {bundles[0]}")
    start = seconds(expected["first_vapor"])
    check_register(expected, bundles[0], start)
    check_log(expected, bundles[0], start)
    check_chain(expected, bundles[0])
    check_due(expected, json.load(open(sys.argv[3], encoding="utf-8")))
    for line in wrong:
        print("FAILED:", line)
    print(f"{len(expected['colonies'])} colonies held to the story, {len(wrong)} differences")
    return 1 if wrong else 0


sys.exit(main())
