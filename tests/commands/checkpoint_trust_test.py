#!/usr/bin/python3
"""The checkpoint beside a large store is changed by another hand and summed anew: it is not used.
One that is even sealed with the store's own secret is found by `verify`, which replays without it,
says so and removes it. A backup does not hold the secret.
Usage: checkpoint_trust_test.py DUSKWALK DEMO_FOLDER
"""
import contextlib
import hashlib
import json
import os
import sqlite3
import sys

sys.path.insert(0, f"{sys.path[0]}/../support")
from calls import call, demo, end, expect, work, write_bundle  # noqa: E402

MAGIC, SEAL = 22, 32  # bytes at the front: the format's name, then the seal of all that follows


def notes(device, last):
    lines, prev = [], "0" * 64
    for seq in range(1, last + 1):
        event = {"at_utc_ms": 1786000000000 + seq, "body": {"text": f"word {seq}"}, "boot_id": "b",
                 "device": device, "kind": "note", "seq": seq, "since_boot_ms": seq,
                 "zone_offset_min": 0}
        text = json.dumps(event, sort_keys=True, separators=(",", ":"))
        digest = hashlib.sha256(bytes.fromhex(prev) + text.encode()).hexdigest()
        lines.append(f'{{"event":{text},"hash":"{digest}","prev":"{prev}"}}\n')
        prev = digest
    return "".join(lines).encode()


def secret_of(path):
    with contextlib.closing(sqlite3.connect(path)) as db:
        row = db.execute("SELECT value FROM meta WHERE key = 'secret'").fetchone()
    return bytes.fromhex(row[0]) if row else None


store = f"{work}/office.journal"
checkpoint = store + ".checkpoint"
for sheet in ("yards", "colonies"):
    call("read", f"{demo}/{sheet}.csv", "--store", store)
write_bundle(f"{work}/duskwalk-many", notes("018f0000-0000-7000-8000-0000000000aa", 21_000))
call("merge", f"{work}/duskwalk-many", "--store", store)
expect(os.path.exists(checkpoint), "a store of so many entries has a checkpoint")
want = call("verify", "--store", store).split("State hash ")[-1]
honest = open(checkpoint, "rb").read()
expect(b"Alder Bend" in honest, "the checkpoint holds the yard's name")
lying = honest.replace(b"Alder Bend", b"Adder Bend")


def put(body, seal):
    with open(checkpoint, "wb") as out:
        out.write(body[:MAGIC] + seal + body[MAGIC + SEAL:])


def shows(yard):
    return f"{yard}: never counted" in call("due", "--store", store)


def summed(body, **how):
    return hashlib.blake2b(body[MAGIC + SEAL:], digest_size=SEAL, **how).digest()


# ---- changed, and summed anew by who knows the format ----
for key in (b"", bytes(32), b"Duskwalk"):
    for seal in (summed(lying, key=key),
                 hashlib.blake2b(summed(lying), key=key, digest_size=SEAL).digest()):
        put(lying, seal)
        expect(shows("Alder Bend"), f"what the app says comes from the entries (sum keyed with {key})")
        expect(want in call("verify", "--store", store), "and verify says the same")

# ---- sealed with the secret, by who could read the store ----
secret = secret_of(store)
expect(secret is not None, "the store holds a secret")
if secret is not None:
    put(lying, hashlib.blake2b(summed(lying), key=secret, digest_size=SEAL).digest())
    said = call("verify", "--store", store, code=1)
    expect("said something else than the entries" in said, "verify replays without it: " + said)
    expect(not os.path.exists(checkpoint), "and it is gone")
    expect(shows("Alder Bend"), "what is shown next comes from the entries")
    expect(want in call("verify", "--store", store), "the store is whole")
    call("backup", f"{work}/copy", "--store", store)
    expect(secret_of(f"{work}/copy") is None, "a backup does not hold the secret")
    expect(secret.hex().encode() not in open(f"{work}/copy", "rb").read(), "not even in its pages")

end()
