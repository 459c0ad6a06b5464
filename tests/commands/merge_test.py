#!/usr/bin/python3
"""Merges the bundles of two tablets through the command.

The bags are written here, by another hand than the program's (BagIt, RFC 8493), with the entries
of two real stores split, ordered and repeated at random: every store that took all of them must
have the same state hash. Then bundles that are broken or hostile, each with the line that names it.
Usage: merge_test.py DUSKWALK DEMO_FOLDER
"""
import hashlib
import json
import os
import random
import shutil
import sys
import tempfile

sys.path.insert(0, f"{sys.path[0]}/../support")
from calls import (demo, end, expect, store, strict_call as call, work,  # noqa: E402
                   write_bundle)

dice = random.Random(20261126)  # fixed: the same run each time


def merge(name, *bags, code=0):
    return call("merge", *bags, "--store", store(name), code=code)


def state(name):
    return call("verify", "--store", store(name)).split("State hash ")[1].strip()


def bag(name, lines, extra_manifest=""):
    """A bundle with these lines as data/events.jsonl; returns its folder."""
    folder = f"{work}/bags/{name}"
    shutil.rmtree(folder, ignore_errors=True)
    write_bundle(folder, "".join(lines).encode(), extra_manifest)
    return folder


def lines_of(name):
    os.makedirs(f"{work}/out", exist_ok=True)
    folder = call("bundle", f"{work}/out", "--store", store(name)).splitlines()[0]
    with open(folder + "/data/events.jsonl") as f:
        return f.readlines()


def seal(line, prev=None, **changed):
    """The line with its event changed and its own hash made to hold again."""
    line = json.loads(line)
    line["event"].update(changed)
    prev = line["prev"] if prev is None else prev
    event = json.dumps(line["event"], sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    digest = hashlib.sha256(bytes.fromhex(prev) + event.encode()).hexdigest()
    return f'{{"event":{event},"hash":"{digest}","prev":"{prev}"}}\n'


# ---- two tablets: the second takes in the first and both go on ----
for sheet in ("yards", "colonies"):
    call("read", f"{demo}/{sheet}.csv", "--store", store("a"))
merge("b", bag("first", lines_of("a")))
call("read", f"{demo}/counts.csv", "--store", store("b"))



def read(name, rows):
    with open(work + "/new.csv", "w") as sheet:
        sheet.write("Yard,Colony,Brood boxes\n" + rows)
    call("read", work + "/new.csv", "--store", store(name))


call("read", f"{demo}/counts.csv", "--store", store("a"))
for name in ("a", "b"):
    read(name, "Alder Bend,Z9,1\nNew Ground,G1,2\n")
read("a", "Alder Bend,Z8,1\n")
read("b", "Alder Bend,Z8,2\n")
said = merge("a", bag("second", lines_of("b")))
expect("Contradictions: 1." in said and said.count("Z8: colony added") == 2,
       "one colony added by two tablets with other words is listed with both sides: " + said)
expect("Z9" not in said and "G1" not in said, "what both read alike is nothing to settle: " + said)


def sql_rows(name, table):
    folder = tempfile.mkdtemp(dir=work) + "/sql"
    call("bundle", "--sql", folder, "--store", store(name))
    with open(f"{folder}/{table}.copy") as f:
        return [line.rstrip("\n").split("\t") for line in f]


names = [row[1] for row in sql_rows("a", "yard")]
expect(names.count("New Ground") == 1, f"a yard of one sheet is there once: {names}")
names = [row[2] for row in sql_rows("a", "colony")]
expect(names.count("Z9") == 1 and names.count("G1") == 1, f"a colony is there once: {names}")
of_a, of_b = (len(sql_rows(name, "mite_count")) for name in ("a", "b"))
expect(of_a == of_b > 0, f"counts of one sheet, read on both, are there once: {of_a}, {of_b}")


def contradicted(said):
    return said[said.index("Contradictions: "):]


os.makedirs(work + "/meeting")
os.rename(bag("all", lines_of("a")), work + "/meeting/duskwalk-all")
put = call("exchange", work + "/meeting", "--store", store("meets"))
expect(contradicted(put).count("\n- ") == 1 and contradicted(put) == contradicted(said),
       f"exchange names what contradicts as merge does: {put}")
everything = lines_of("a")
want = state("a")

# ---- any split, order and repeats ----
for run in range(5):
    shuffled = everything[:]
    dice.shuffle(shuffled)
    pieces = dice.randint(1, 5)
    bags = [bag(f"{run}-{i}", shuffled[i::pieces]) for i in range(pieces)]
    for one in bags:
        merge(f"run{run}", one)
    expect(state(f"run{run}") == want, f"run {run}: another state after {pieces} bundles")
    again = merge(f"run{run}", *dice.sample(bags, pieces))
    expect("Entries: 0 taken in" in again, f"run {run}: a repeat takes in something: {again}")
    expect(state(f"run{run}") == want, f"run {run}: another state after a repeat")

# ---- a bundle that has not come yet ----
device = json.loads(everything[0])["event"]["device"]
own = [line for line in everything if json.loads(line)["event"]["device"] == device]
own.sort(key=lambda line: json.loads(line)["event"]["seq"])
said = merge("gap", bag("late", own[9:]))
expect("entries 1-9 are missing" in said, "a missing beginning is named: " + said)
said = merge("gap", bag("early", own[:5]))
expect("entries 6-9 are missing" in said, "a gap is named: " + said)
said = merge("gap", bag("between", own[5:9]))
expect("Gap" not in said, "the gap is closed: " + said)
merge("whole", bag("whole", own))
expect(state("gap") == state("whole"), "bundles of days in any order give the same state")

# ---- bundles that are broken, each named in one line, their good part taken ----
def broken(name, folder, words, taken):
    said = merge(name, folder)
    lines = [line for line in said.splitlines() if words in line]
    expect(len(lines) == 1, f"{name}: one line with \"{words}\": {said}")
    expect(f"Entries: {taken} taken in" in said, f"{name}: takes {taken}: {said}")


flipped = bag("flipped", own)
with open(flipped + "/data/events.jsonl", "r+b") as f:
    data = f.read()
    at = data.index(own[4].encode()) + 40
    f.seek(at)
    f.write(bytes([data[at] ^ 1]))
broken("flipped", flipped, "line 5 of events.jsonl", len(own) - 1)
broken("flipped2", bag("chain", own[:4] + [seal(own[4], zone_offset_min=1)] + own[5:]),
       f"entries 5 are missing; {len(own) - 5} after them wait", len(own))
said = merge("flipped2", bag("true", own[4:5]))
expect("Gap" not in said and "Contradictions: 1." in said and "were both written on" in said,
       "what two say of one number is shown with both sides: " + said)
broken("later", bag("later", own[:4] + [seal(own[4], kind="invented_later")] + own[5:]),
       "no kind of entry that this version knows", len(own) - 1)
broken("far", bag("far", own + [seal(own[4], seq=2**62)]), "counts that far", len(own))
broken("climbs", bag("climbs", own, f"{'0' * 64}  data/../../../outside\n"), "outside", len(own))
broken("long", bag("long", own + ["x" * 3_000_000 + "\n"]), f"line {len(own) + 1} of", len(own))
os.symlink("/etc", bag("links", own) + "/data/elsewhere")
broken("links", f"{work}/bags/links", "a link is never followed", len(own))

os.rename(bag("part", own), f"{work}/bags/.part-x")
os.makedirs(work + "/half")
os.rename(f"{work}/bags/.part-x", work + "/half/.part-x")
merge("none", work + "/half", code=2)
merge("none", work + "/nowhere", code=2)
merge("none", bag("empty", ["no entry\n"]), code=1)
expect(not os.path.exists(store("none")), "a merge of nothing made a store")

end("every merge gave the state it should")
