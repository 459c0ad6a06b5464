#!/bin/sh
# The CSV files, read back by Python's csv module. Usage: csv_readback.sh WRITE_PAYLOAD
# Names and amounts are those of tests/support/register_fixture.h.
set -eu
[ -x /usr/bin/python3 ] || { echo "skipped: /usr/bin/python3 is not installed"; exit 77; }
dir=$(mktemp -d)
trap 'rm -rf "$dir"' EXIT
"$1" hostile "$dir"
/usr/bin/python3 - "$dir" <<'PYTHON'
import csv, sys

def read(name):
    with open(f"{sys.argv[1]}/{name}", newline="", encoding="utf-8-sig") as f:
        return list(csv.DictReader(f, strict=True))

def same(got, want, what):
    if got != want:
        sys.exit(f"{what}: {got!r}, not {want!r}")

rows = read("register.csv")
same(len(rows), 9, "rows of the register")
for r in rows + read("day.csv"):
    same(None in r or None in r.values(), False, "a row of another length")
name = "'=1+1\"'><script>document.title='RAN'</script>,<img src=http://example.invalid/x.png>" \
       "; naïve żółw\r\nsecond line"
same(rows[0]["colony"], name, "hostile name")
same(rows[0]["dose_as_written"], "'=2 strips", "formula in a dose")
same(rows[0]["withdrawal_days"], "14", "withdrawal")
treated = next(r for r in rows if r["colony"] == "A3")
same([treated[k] for k in ("dose_mg", "dose_basis", "anhydrous_mg", "over_label", "dose_shown")],
     ["5000", "dihydrate", "3571", "yes", "0.176 oz dihydrate"], "A3")
same([treated[k] for k in ("temperature_tenths_c", "temperature_shown", "wind_tenths_m_s", "rain")],
     ["125", "55 °F", "32", "no"], "weather of A3")
same(treated["against_label"], "over the label's most", "what A3 is against in the label")
struck = [r for r in rows if r["struck"] == "yes"]
same([(r["colony"], r["outcome"], r["struck_because"]) for r in struck],
     [("A6", "struck", "tapped the wrong hive")], "struck rows")
numbers = ["dose_mg", "dihydrate_mg", "anhydrous_mg", "brood_boxes", "withdrawal_days", "dwell_s",
           "seal_s", "temperature_tenths_c", "wind_tenths_m_s", "wind_from_deg", "seq"]
for r in rows:
    for k in numbers:
        if r[k]:
            int(r[k])
    for k, v in r.items():
        if v[:1] in ("=", "+", "-", "@", "\t", "\r") and k not in numbers:
            sys.exit(f"{k} begins like a formula: {v!r}")
days = [r["what"] for r in read("day.csv")]
same("A2: 1 g dihydrate set, vaporizer 1, lot 24-118" in days, True,
     "what happened to A2")
raw = open(f"{sys.argv[1]}/register.csv", "rb").read()
same(raw.endswith(b"\r\n"), True, "last line ends in CRLF")
print(f"csv: {len(rows)} register rows and {len(days)} day rows read back by Python", sys.version.split()[0])
PYTHON
