#!/usr/bin/env bash
# The commands as a person or another program calls them: what they print, what they return, and
# that a failure is one line on standard error with nothing on standard output.
# Usage: commands_test.sh DUSKWALK DEMO_FOLDER
set -u
duskwalk=$1
demo=$2
# shellcheck source=tests/commands/calls.sh
. "$(dirname "$0")/calls.sh"
export DUSKWALK_STORE=$work/farm.journal

fails 2 "$DUSKWALK_STORE: there is no store; \`duskwalk read FILE.csv\` makes one" due
does "3" read "$demo/yards.csv"
does "29" read "$demo/colonies.csv"
does "11" read "$demo/counts.csv"
before=$("$duskwalk" verify | tail -1)
for sheet in yards colonies counts; do "$duskwalk" read "$demo/$sheet.csv" >/dev/null || fail "again: $sheet"; done
[ "$before" = "$("$duskwalk" verify | tail -1)" ] || fail "a second reading changed something"
does "every event is possible" verify

does "Quarry Lane" due --on 2026-08-14
"$duskwalk" due --on 2026-08-14 --json >"$work/due.json" || fail "due --json"
/usr/bin/python3 - "$work/due.json" <<'P' || fail "due --json is not what it should be"
import json, sys
due = json.load(open(sys.argv[1]))
assert due["on"] == "2026-08-14", due
assert [c["yard"] for c in due["counts"]] == ["North Orchard", "Quarry Lane"], due["counts"]
assert due["counts"][0]["last"] is None and due["counts"][1]["days_since"] == 40, due["counts"]
P

does "" bundle "$work"
bundle=$(head -1 "$work/out")
does "whole" verify "$bundle"
grep -q "safe to pull" "$work/out" && fail "a folder is taken for a stick: $(cat "$work/out")"
(cd "$bundle" && sha256sum --quiet --strict -c manifest-sha256.txt) || fail "sha256sum: manifest"
(cd "$bundle" && sha256sum --quiet --strict -c tagmanifest-sha256.txt) || fail "sha256sum: tags"
printf x >>"$bundle/data/day.csv"
fails 1 "day.csv" verify "$bundle"

does "rows" register --out "$work/r.csv"
does "rows" register --from 2026-08-01 --to 2026-08-31 --yard "Alder Bend" --out "$work/r.html"
does "keep the record at least 5 years" register --law eu --out "$work/r.csv"
fails 2 "--law" register --law eu --out -
fails 2 "--law" register --law atlantis --out "$work/r.csv"
grep -q "Alder Bend" "$work/r.html" || fail "the register does not name its yard"

cp "$work/r.html" "$work/r1.html"
does "rows" register --yard "Alder Bend" --out "$work/r.pdf"
head -c 5 "$work/r.pdf" | grep -q "^%PDF-" || fail "the PDF register is none"
does "rows" register --from 2026-08-01 --to 2026-08-31 --yard "  alder BEND " --out "$work/r.html"
cmp -s "$work/r.html" "$work/r1.html" || fail "upper and lower case of a yard make a difference"

fails 2 "no day" due --on 2026-02-30
fails 2 "--on" due --on ""
fails 2 "--day" bundle "$work" --day ""
fails 2 "--from" register --from "" --out "$work/x.csv"
fails 2 "--to" register --to "" --out "$work/x.csv"
fails 2 "--yard" register --yard "" --out "$work/x.csv"
fails 2 "--store" due --store ""
fails 2 "nothing was written on 2030-01-01" bundle "$work/sticks" --day 2030-01-01
mkdir "$work/sticks" "$work/folder.csv"
fails 2 "nothing was written on 2030-01-01" bundle "$work/sticks" --day 2030-01-01
[ -z "$(ls -A "$work/sticks")" ] || fail "a day without entries left a bundle"
fails 2 "no such folder" register --out /nonexistent/r.csv
fails 2 "is a folder" register --out "$work/sticks/../folder.csv"
fails 1 "" register --out /proc/r.csv
fails 2 "\"xx\" is not there; en and es are" --language xx
fails 2 "--help" due --colour
fails 2 "--help" --colour
fails 2 "--help" due --json --theme sun
does "On 2026-08-14" due --on 2026-08-14
for call in "due" "due --json" verify --help --version "read $demo/yards.csv" \
  "register --out $work/r.csv"; do
  # shellcheck disable=SC2086
  full $call
done
fails 2 "no yard" register --yard Nowhere --out "$work/x.csv"
fails 2 "no lot" register --lot NOPE --out "$work/x.csv"
fails 2 ".csv, .html, .pdf or .xlsx" register --out "$work/x.doc"
fails 2 "after --to" register --from 2026-09-01 --to 2026-08-01 --out "$work/x.csv"
fails 2 "missing.csv" read "$work/missing.csv"
fails 2 "--help" wander
fails 2 "" bundle "$work/nowhere"
[ ! -e "$work/x.csv" ] || fail "a failed call left a file"

printf 'Yard,Brood boxes\n\xff\xfe,1\n' >"$work/latin.csv"
fails 2 "latin.csv" read "$work/latin.csv"
printf 'Colour,Size\nred,3\n' >"$work/strange.csv"
fails 2 "strange.csv" read "$work/strange.csv"
printf 'Yard,Colony,Brood boxes\nAlder Bend,A1,many\nAlder Bend,Z9,2\n' >"$work/mixed.csv"
does "row 2: refused" read "$work/mixed.csv"

printf 'tap NOWHERE\n' >"$work/bad.play"
fails 1 "line 1" play "$work/bad.play" --out "$work/p" --store "$work/play.journal"
printf 'dance\n' >"$work/bad.play"
fails 2 "line 1" play "$work/bad.play" --out "$work/p" --store "$work/play.journal"


# A yard's walk by hand: two colonies at the gate, one cloth (engine/order's worked example).
cat >"$work/yard.json" <<'Y'
{"walk_mps": 1.1, "gate": [0, 0], "vaporizers": 1, "cloths": 1, "seal_s": 300,
 "handling_s": {"load_and_set": 20, "lift_and_cover": 10, "uncover": 6},
 "colonies": [{"id": "A", "at": [0, 0], "dwell_s": 90}, {"id": "B", "at": [0, 0], "dwell_s": 90}]}
Y
does '"finish_s":742.0' order "$work/yard.json"
does "as asked" order "$work/yard.json" --table --cloths 1-2
sed 's/"cloths": 1/"cloths": 0/' "$work/yard.json" >"$work/none.json"
fails 2 "cloths: there must be at least one" order "$work/none.json"
fails 2 "--cloths" order "$work/yard.json" --cloths 8-2
fails 2 "is not JSON" order "$demo/yards.csv"

# What counts say: 0 of 300, upper limit 1 - 0.025^(1/300) (closed form).
echo '{"sampling": [{"type": "wash", "k": 0, "n": 300}]}' >"$work/wash.json"
does '"high":1.22209' mites "$work/wash.json"
echo '{"sampling": [{"type": "wash", "k": 0, "n": 0}]}' >"$work/wash.json"
fails 2 "sampling[0].n" mites "$work/wash.json"

# Reda, Andreas, NREL/TP-560-34302: sunrise 6:12:43 at UTC-7, which is 7:12:43 summer time.
place="--lat 39.742476 --lon -105.1786 --date 2003-10-17"
# shellcheck disable=SC2086
does "2003-10-17T07:12:43-06:00" light $place --zone America/Denver --json
# shellcheck disable=SC2086
fails 2 "--zone" light $place --zone Mars/Phobos
fails 2 "--lat" light --lat 91 --lon 0 --date 2026-08-14 --zone UTC
fails 2 "--date" light --lat 1 --lon 0 --date 2026-02-30 --zone UTC
fails 2 "1900 to 2100" light --lat 1 --lon 0 --date 1899-12-31 --zone UTC
fails 2 "1900 to 2100" light --lat 1 --lon 0 --date 2101-01-01 --zone UTC
does "sunrise" light --lat 1 --lon 0 --date 1900-01-01 --zone UTC
does "sunrise" light --lat 1 --lon 0 --date 2100-12-31 --zone UTC

[ $bad = 0 ] && echo "all calls did what they promise"
exit $bad
