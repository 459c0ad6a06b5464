#!/usr/bin/env python3
"""Bundles with a flipped bit in each of their files, and with paths that lead outside: each is named
in one line, what is whole of it is merged, and nothing outside it is read or written.
Usage: bad_bundle_test.py DUSKWALK DEMO_FOLDER"""
import hashlib
import pathlib
import shutil
import subprocess
import sys
import tempfile

duskwalk, demo = sys.argv[1], sys.argv[2]
wrong = 0


def fail(line):
    global wrong
    wrong = 1
    print("FAILED:", line)


def run(*words):
    done = subprocess.run([duskwalk, *words], capture_output=True, text=True)
    return done.returncode, done.stdout, done.stderr


def flip(path, place):
    data = bytearray(path.read_bytes())
    data[int(place * (len(data) - 1))] ^= 0x04
    path.write_bytes(bytes(data))


def seal(bundle):
    """The tag manifest made right again, so that only the manifest's own lines are wrong."""
    names = ["bag-info.txt", "bagit.txt", "manifest-sha256.txt"]
    sums = [hashlib.sha256((bundle / n).read_bytes()).hexdigest() + "  " + n + "\n" for n in names]
    (bundle / "tagmanifest-sha256.txt").write_text("".join(sums))


def named(bundle, words, what):
    code, out, err = run("verify", str(bundle))
    if code != 1 or out or err.count("\n") != 1 or words not in err:
        fail(f"{what}: verify: exit {code}, {out!r}, {err!r}")


with tempfile.TemporaryDirectory() as folder:
    work = pathlib.Path(folder)
    store = ("--store", str(work / "farm.journal"))
    for sheet in ("yards", "colonies", "counts"):
        assert run("read", f"{demo}/{sheet}.csv", *store)[0] == 0
    good = pathlib.Path(run("bundle", str(work / "."), *store)[1].splitlines()[0])
    entries = (good / "data/events.jsonl").read_bytes().count(10)
    bad = work / "copy" / good.name

    def copied():
        shutil.rmtree(work / "copy", ignore_errors=True)
        shutil.copytree(good, bad)
        return bad

    files = sorted(p.relative_to(good) for p in good.rglob("*") if p.is_file())
    for name in files:
        flip(copied() / name, 0.5)
        words = str(name) if name.parts[0] == "data" else "is not what was written"
        if str(name) in ("manifest-sha256.txt", "tagmanifest-sha256.txt", "bag-info.txt", "bagit.txt"):
            words = ""  # which of them tells first depends on the bit
        named(bad, words, f"a bit of {name}")
        target = ("--store", str(work / "target" / "farm.journal"))
        code, out, err = run("merge", str(bad), *target)
        taken = entries - 1 if name.name == "events.jsonl" else entries
        if code != 0 or f"{taken} taken in" not in out or "1 found, 0 whole" not in out:
            fail(f"a bit of {name}: merge: exit {code}, {out!r}, {err!r}")
        if run("verify", *target)[0] != 0:
            fail(f"a bit of {name}: the store is not whole after the merge")
        shutil.rmtree(work / "target")

    (work / "copy").mkdir(exist_ok=True)
    (work / "copy" / "secret").write_text("not for a bundle")
    of_secret = hashlib.sha256(b"not for a bundle").hexdigest()
    for path in ("../secret", "data/../../secret", "/etc/passwd", "data\\..\\..\\secret", "data//x",
                 "..", "data/..", "C:\\secret", "data/%2e%2e/%2e%2e/secret", "~/secret", "data/"):
        manifest = copied() / "manifest-sha256.txt"
        (work / "copy" / "secret").write_text("not for a bundle")
        manifest.write_text(manifest.read_text() + f"{of_secret}  {path}\n")
        seal(bad)
        named(bad, "manifest-sha256.txt", f"the path {path}")
    for name in ("../secret", "/etc/passwd"):  # the same by a link
        link = copied() / "data" / "extra.txt"
        link.symlink_to(name)
        named(bad, "a link is never followed", f"a link to {name}")

if not wrong:
    print(f"{len(files)} files with a bad bit and every path that leads outside were named")
sys.exit(wrong)
