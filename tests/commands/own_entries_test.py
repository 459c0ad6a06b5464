#!/usr/bin/python3
"""Entries under a tablet's own id that its store did not write: an older copy of the store that was
put back, a copy that was written on, or somebody else's hand. No such entry locks the tablet: what
does not fit falls and is named, and the tablet goes on under a new id. A store that is locked for
another reason (bytes that went bad, entries of a later version, a format of a later version) is
looked at, copied and gone on from by the command line.
Usage: own_entries_test.py DUSKWALK DEMO_FOLDER
"""
import contextlib
import glob
import hashlib
import json
import os
import shutil
import sqlite3
import sys

sys.path.insert(0, f"{sys.path[0]}/../support")
from calls import (demo, end, expect, store, strict_call as call, work,  # noqa: E402
                   write_bundle)


def copy_store(name, to):
    for beside in ("", "-wal", ".tip"):
        if os.path.exists(store(name) + beside):
            shutil.copy(store(name) + beside, store(to) + beside)


def put_back(copy, name):
    """As a keeper who knows the page about the tip: the older store, and nothing beside it."""
    for beside in glob.glob(store(name) + "*"):
        os.remove(beside)
    shutil.copy(store(copy), store(name))


def state(name):
    return call("verify", "--store", store(name)).split("State hash ")[-1].strip()


def sheet(name, text):
    path = f"{work}/sheet.csv"
    with open(path, "w") as out:
        out.write(text)
    return call("read", path, "--store", store(name))


def lines_of(name):
    folder = f"{work}/out"
    shutil.rmtree(folder, ignore_errors=True)
    os.makedirs(folder)
    bundle = call("bundle", folder, "--store", store(name)).splitlines()[0]
    with open(bundle + "/data/events.jsonl") as lines:
        return lines.readlines()


def device_of(line):
    return json.loads(line)["event"]["device"]


def own_id(name):
    with contextlib.closing(sqlite3.connect(store(name))) as db:
        return db.execute("SELECT value FROM meta WHERE key = 'device'").fetchone()[0]


def bundle(folder, name, lines):
    write_bundle(f"{folder}/duskwalk-2026-08-14-{name}", "".join(lines).encode())


def sealed_after(line, **changed):
    """One more entry of that tablet, chained to `line`, by somebody who knows the format."""
    last = json.loads(line)
    event = dict(last["event"], seq=last["event"]["seq"] + 1, **changed)
    text = json.dumps(event, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    digest = hashlib.sha256(bytes.fromhex(last["hash"]) + text.encode()).hexdigest()
    return f'{{"event":{text},"hash":"{digest}","prev":"{last["hash"]}"}}\n'


def goes_on(name, why):
    """The store is open for writing, whole, and takes an entry."""
    said = call("verify", "--store", store(name))
    expect("State hash" in said, f"{why}: verify says: {said}")
    sheet(name, f"Yard,Notes\nAlder Bend,goes on {why}\n")
    call("verify", "--store", store(name))


def folder(name):
    path = f"{work}/{name}"
    os.makedirs(path)
    return path


# ---- an older copy of the store is put back; the exchange folder has what the tablet wrote later,
# one entry of which stands on another tablet's entry that is not there yet ----
for name in ("yards", "colonies"):
    call("read", f"{demo}/{name}.csv", "--store", store("a"))
copy_store("a", "older")
shared = lines_of("a")
bundle(folder("first"), "first", shared)
call("merge", f"{work}/first", "--store", store("b"))
sheet("b", "Yard,Colony,Brood boxes\nAlder Bend,Z9,1\n")
of_b = [line for line in lines_of("b") if device_of(line) == own_id("b")]
bundle(folder("second"), "second", of_b)
call("merge", f"{work}/second", "--store", store("a"))
sheet("a", "Yard,Colony,Date,Mites,Bees\nAlder Bend,Z9,2026-08-12,4,300\n")
want, everything, first_id = state("a"), lines_of("a"), own_id("a")
later = [line for line in everything if device_of(line) == first_id][len(shared):]
expect(later, "the first tablet wrote on")

meeting = folder("meeting")
bundle(meeting, "later", later)
shutil.copy(store("a") + ".tip", f"{work}/newest.tip")
put_back("older", "a")
said = call("exchange", meeting, "--store", store("a"))
expect("from now on it writes as tablet" in said, "the id is renewed and that is said: " + said)
expect(own_id("a") != first_id, "what came is this tablet's own, so it goes on under a new id")
expect("Contradictions: 1" in said, "the count of an unknown colony does not fit yet: " + said)
copy_store("a", "waiting")
goes_on("waiting", "while the other tablet's entry is missing")
bundle(meeting, "others", of_b)
said = call("exchange", meeting, "--store", store("a"))
expect("Contradictions: 0" in said, "all fits once the other tablet's entry is here: " + said)
expect(state("a") == want, "the tablet has what it had before the older copy was put back")
goes_on("a", "after an older copy was put back")

# ---- the same by a keeper who left the mark of how far the store got beside it ----
shutil.copy(store("older"), store("marked"))
shutil.copy(f"{work}/newest.tip", store("marked") + ".tip")
said = call("verify", "--store", store("marked"), code=1)
expect("were stored but are gone" in said, "what is missing is named: " + said)
call("restore", "--go-on", "--store", store("marked"))
both = folder("both")
bundle(both, "later", later)
bundle(both, "others", of_b)
call("exchange", both, "--store", store("marked"))
expect(state("marked") == want, "all is well again")
goes_on("marked", "after its mark was ahead")

# ---- one forged entry that nothing here makes possible continues this tablet's chain ----
call("read", f"{demo}/yards.csv", "--store", store("c"))
mine = lines_of("c")
forged = sealed_after(mine[-1], kind="colony_moved",
                      body={"colony": "018f0000-0000-7000-8000-00000000dead",
                            "to": "018f0000-0000-7000-8000-00000000beef", "reason": ""})
bundle(folder("stick"), "forged", [forged])
before = own_id("c")
said = call("merge", f"{work}/stick", "--store", store("c"))
expect("Contradictions: 1" in said and "Does not fit" in said, "what cannot be is named: " + said)
expect(own_id("c") != before, "the tablet goes on under a new id")
goes_on("c", "after a forged entry")

# ---- what several batches of one exchange bring is all said, and only gaps that are open at the end
def notes_of(device, last):
    """A chain of so many notes."""
    lines, prev = [], "0" * 64
    for seq in range(1, last + 1):
        event = {"at_utc_ms": 1786000000000 + seq, "body": {"text": f"word {seq}"}, "boot_id": "b",
                 "device": device, "kind": "note", "seq": seq, "since_boot_ms": seq,
                 "zone_offset_min": 0}
        text = json.dumps(event, sort_keys=True, separators=(",", ":"))
        digest = hashlib.sha256(bytes.fromhex(prev) + text.encode()).hexdigest()
        lines.append(f'{{"event":{text},"hash":"{digest}","prev":"{prev}"}}\n')
        prev = digest
    return lines


ids = [f"018f0000-0000-7000-8000-0000000000a{n}" for n in range(5)]
many = folder("many")
forked, closed, gap, newer = (notes_of(device, 6) for device in ids[:4])
bundle(many, "a-closed-later", closed[3:])
bundle(many, "a-fork", forked + [sealed_after(forked[2], body={"text": "another hand"})])
bundle(many, "a-gap", gap[:2] + gap[4:])
bundle(many, "a-newer", [sealed_after(newer[0], kind="bees_counted")])
bundle(many, "b-long", notes_of(ids[4], 50_000))  # fills the first batch
bundle(many, "c-closes", closed[:3])
bundle(many, "c-fork", [sealed_after(forked[3], body={"text": "a third hand"})])
said = call("exchange", many, "--store", store("f"))
expect(said.count(f"Fork: a copy of tablet {ids[0][-8:]}") == 2, "the fork of each batch: " + said)
expect(said.count("bees_counted") == 1, "what this version cannot read: " + said)
expect(said.count(f"Gap: tablet {ids[2][-8:]}: entries 3-4 are missing") == 1, "one gap: " + said)
expect(said.count("Gap:") == 1, "a gap that another batch closed is none: " + said)

end()
