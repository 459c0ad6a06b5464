#!/usr/bin/env python3
"""One endless line where the program reads text: a spreadsheet, a play script, a bundle's events, its
manifest, a question as JSON, and a file that is no store. Each ends with one clear line, quickly, and
the memory it takes does not grow with the line.
Usage: huge_line_test.py DUSKWALK DEMO_FOLDER [BYTES]
The files have holes, so that they take no room; 77: the disk cannot do that."""
import os
import pathlib
import resource
import subprocess
import sys
import tempfile
import time

duskwalk, demo = sys.argv[1], sys.argv[2]
size = int(sys.argv[3]) if len(sys.argv) > 3 else 512 << 20
most_mb = 450  # a sanitizer's shadow and the program itself are most of it
# A sanitizer keeps up to 256 MB of what was given back; that is not what the program holds.
os.environ["ASAN_OPTIONS"] = "quarantine_size_mb=1"
wrong = 0


def fail(line):
    global wrong
    wrong = 1
    print("FAILED:", line)


def sparse(path, begin, length):
    with open(path, "wb") as f:
        f.write(begin)
        f.truncate(length)
    if os.stat(path).st_blocks * 512 > 16 << 20:
        print("skipped: this disk keeps no holes in files")
        sys.exit(77)


def call(*words):
    """Exit code, both outputs, seconds, and the peak memory of this very call in MB."""
    begun = time.monotonic()
    child = subprocess.Popen([duskwalk, *words], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    out, err = child.stdout.read(), child.stderr.read()
    _, status, usage = os.wait4(child.pid, 0)
    child.returncode = 0
    return (os.waitstatus_to_exitcode(status), out.decode(), err.decode(),
            time.monotonic() - begun, usage.ru_maxrss // 1024)


def refused(name, code, words, *arguments):
    got, out, err, seconds, peak = call(*arguments)
    print(f"{name}: exit {got}, {seconds:.1f} s, {peak} MB: {err.strip()[:160]}")
    if got != code or out or err.count("\n") != 1 or words not in err:
        fail(f"{name}: exit {got}, {out!r}, {err!r}")
    if peak > most_mb:
        fail(f"{name}: took {peak} MB")


with tempfile.TemporaryDirectory() as folder:
    work = pathlib.Path(folder)
    store = ("--store", str(work / "farm.journal"))
    for sheet in ("yards", "colonies"):
        subprocess.run([duskwalk, "read", f"{demo}/{sheet}.csv", *store], check=True,
                       stdout=subprocess.DEVNULL)
    before = subprocess.run([duskwalk, "verify", *store], capture_output=True, check=True).stdout

    sheet = work / "endless.csv"
    sparse(sheet, b"Yard,Colony,Brood boxes\nAlder Bend,", size)
    refused("a sheet of 512 MB", 2, "is larger than 64 MB", "read", str(sheet), *store)
    with open(sheet, "wb") as f:  # as large as a sheet may be, and one cell
        f.write(b"Yard,Colony,Brood boxes\nAlder Bend,")
        for _ in range(60):
            f.write(b"x" * (1 << 20))
    got, out, err, seconds, peak = call("read", str(sheet), *store)
    print(f"a cell of 60 MB: exit {got}, {seconds:.1f} s, {peak} MB: {out.splitlines()[-2:]}")
    if got != 0 or "row 2: refused: a cell is longer than any spreadsheet holds" not in out:
        fail(f"a cell of 60 MB: exit {got}, {out!r}, {err!r}")
    if peak > most_mb + 200:  # the text is held once, by a reader that bounds it
        fail(f"a cell of 60 MB: took {peak} MB")
    os.remove(sheet)

    script = work / "endless.play"
    sparse(script, b"tap ", size)
    refused("a play script", 2, "larger than", "play", str(script), "--out", str(work / "p"), *store)
    question = work / "endless.json"
    sparse(question, b'{"name": "', size)
    refused("a question", 2, "larger than", "mites", str(question))
    refused("a yard to walk", 2, "larger than", "order", str(question))

    said = subprocess.run([duskwalk, "bundle", folder, *store], capture_output=True, text=True,
                          check=True).stdout
    bundle = pathlib.Path(said.splitlines()[0])
    other = ("--store", str(work / "other.journal"))
    events = bundle / "data/events.jsonl"
    whole = events.read_bytes()
    sparse(events, b'{"event":', size)
    with open(events, "ab") as f:  # behind the endless line whole ones: those are taken
        f.write(b"\n" + whole)
    got, out, err, seconds, peak = call("merge", str(bundle), *other)
    print(f"events of a bundle: exit {got}, {seconds:.1f} s, {peak} MB: {out.splitlines()[1:]}")
    if got != 0 or f"{whole.count(10)} taken in" not in out or "line 1 of events.jsonl" not in out:
        fail(f"events of a bundle: exit {got}, {out!r}, {err!r}")
    if peak > most_mb:
        fail(f"events of a bundle: took {peak} MB")
    events.write_bytes(whole)
    sparse(bundle / "manifest-sha256.txt", b"0" * 64 + b"  data/", size)
    refused("a manifest", 1, "manifest-sha256.txt is too big", "verify", str(bundle))

    nothing = work / "none.journal"
    sparse(nothing, b"", size)
    refused("a file that is no store", 1, "no Duskwalk store", "due", "--store", str(nothing))
    after = subprocess.run([duskwalk, "verify", *store], capture_output=True, check=True).stdout
    if before != after:
        fail("the store is not what it was")

if not wrong:
    print(f"every endless line of {size >> 20} MB was refused in one")
sys.exit(wrong)
