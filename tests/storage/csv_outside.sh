#!/bin/sh
# Sheets written by another language's standard CSV writer in each of its dialects must come in as
# they were meant. Usage: csv_outside.sh READ_SHEETS. Exit 77: python3 is not installed.
set -eu
command -v python3 >/dev/null || { echo "python3 is not installed"; exit 77; }
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
python3 - "$1" "$folder" <<'PY'
import csv, json, os, subprocess, sys

program, folder = sys.argv[1:]

class Semicolon(csv.excel):
    delimiter = ";"

class SemicolonAll(Semicolon):
    quoting = csv.QUOTE_ALL

csv.register_dialect("semicolon", Semicolon)
csv.register_dialect("semicolon-all", SemicolonAll)

HIVES = [
    {"yard": "Upper Field", "hive": 'U "1"', "boxes": 2, "supers": True, "note": "gate, left",
     "x_cm": 150, "y_cm": -25},
    {"yard": "Upper Field", "hive": "U;2", "boxes": 1, "supers": False, "note": "two\nlines",
     "x_cm": 0, "y_cm": 1200},
    {"yard": "Colmenar Ñandú", "hive": "=B,1", "boxes": 9, "supers": False, "note": "",
     "x_cm": -5, "y_cm": 0},
]
COUNTS = [
    {"hive": 'U "1"', "on": "2026-08-14", "method": "alcohol_wash", "mites": 6, "bees": 300},
    {"hive": "=B,1", "on": "2026-08-03", "method": "sugar_roll", "mites": 0, "bees": 250},
]

def write(name, dialect, encoding, rows):
    path = os.path.join(folder, name)
    with open(path, "w", newline="", encoding=encoding) as f:
        csv.writer(f, dialect=dialect).writerows(rows)
    return path

def metres(cm, mark):
    return ("%.2f" % (cm / 100)).replace(".", mark)

def day(iso, style):
    y, m, d = iso.split("-")
    return {"iso": iso, "dotted": f"{d}.{m}.{y}", "slash": f"{int(m)}/{int(d)}/{y}"}[style]

def expected():
    hives = [dict(h, note=" ".join(h["note"].split("\n"))) for h in HIVES]
    return sorted(json.dumps(x, sort_keys=True) for x in hives + COUNTS)

def check(dialect, encoding, mark, style):
    hives = [["Apiary", "Hive", "Brood boxes", "Supers", "x (m)", "y (m)", "Notes"]]
    hives += [[h["yard"], h["hive"], h["boxes"], "yes" if h["supers"] else "", metres(h["x_cm"], mark),
               metres(h["y_cm"], mark), h["note"]] for h in HIVES]
    counts = [["Date", "Colony", "Mites", "Bees", "Method"]]
    counts += [[day(c["on"], style), c["hive"], c["mites"], c["bees"], c["method"].replace("_", " ")]
               for c in COUNTS]
    a = write("hives.csv", dialect, encoding, hives)
    b = write("counts.csv", dialect, encoding, counts)
    done = subprocess.run([program, a, b, a, b], capture_output=True, text=True)
    got = sorted(json.dumps(json.loads(l), sort_keys=True) for l in done.stdout.splitlines())
    if done.returncode != 0 or got != expected():
        sys.exit(f"{dialect} {encoding} {style}: {done.stderr}\ngot {got}\nnot {expected()}")
    print("ok", dialect, encoding, style)

for encoding in ["utf-8", "utf-8-sig"]:
    for dialect, mark, style in [("excel", ".", "iso"), ("excel", ".", "slash"),
                                 ("excel-tab", ".", "iso"), ("unix", ".", "dotted"),
                                 ("semicolon", ",", "dotted"), ("semicolon-all", ",", "dotted"),
                                 ("semicolon", ".", "iso")]:
        check(dialect, encoding, mark, style)

path = write("latin.csv", "excel", "latin-1", [["Yard"], ["Ñandú"]])
done = subprocess.run([program, path], capture_output=True, text=True)
if done.returncode != 1 or "line 2 is not UTF-8" not in done.stderr:
    sys.exit(f"latin-1: {done.stderr}")
print("ok latin-1 is refused")
PY
