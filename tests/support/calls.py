"""What tests that call the program share: a folder of their own, calls, claims and an end.

Usage of such a test: NAME_test.py DUSKWALK DEMO_FOLDER
"""
import hashlib
import os
import shutil
import subprocess
import sys
import tempfile

duskwalk, demo = sys.argv[1], sys.argv[2]
work = tempfile.mkdtemp()
os.environ["TZ"] = "America/Chicago"
os.environ.pop("DUSKWALK_STORE", None)
failed = []


def expect(holds, claim):
    if not holds:
        failed.append(claim)
        print("FAILED:", claim)


def call(*words, code=0):
    """Both outputs of a call that must end with this code."""
    done = subprocess.run([duskwalk, *words], capture_output=True, text=True)
    expect(done.returncode == code, f"exit {done.returncode}, not {code}: {words} {done.stderr}")
    return done.stdout + done.stderr


def strict_call(*words, code=0):
    """The same; a failure is one line on the error output and nothing else."""
    said = call(*words, code=code)
    if code:
        expect(said.count("\n") == 1, f"not one line: {words} {said}")
    return said


def store(name):
    return f"{work}/{name}.journal"


def write_bundle(path, data, extra_manifest=""):
    """A whole bundle (BagIt, RFC 8493) with these bytes of entries, by another hand than the
    program's; `extra_manifest` are further lines of its list of sums."""
    os.makedirs(path + "/data")
    digest = hashlib.sha256(data).hexdigest()
    files = {
        "bagit.txt": "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n",
        "bag-info.txt": f"Payload-Oxum: {len(data)}.1\n",
        "manifest-sha256.txt": f"{digest}  data/events.jsonl\n" + extra_manifest,
    }
    tags = "".join(f"{hashlib.sha256(t.encode()).hexdigest()}  {n}\n" for n, t in files.items())
    files["tagmanifest-sha256.txt"] = tags
    for file, text in files.items():
        with open(f"{path}/{file}", "w") as out:
            out.write(text)
    with open(path + "/data/events.jsonl", "wb") as out:
        out.write(data)


def end(said_well=""):
    """Removes the folder and ends the test; `said_well` is printed where every claim held."""
    shutil.rmtree(work)
    print("see above" if failed else said_well)
    sys.exit(1 if failed else 0)
