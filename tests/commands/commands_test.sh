#!/usr/bin/env bash
# The commands as a person or another program calls them: what they print, what they return, and
# that a failure is one line on standard error with nothing on standard output.
# Usage: commands_test.sh DUSKWALK DEMO_FOLDER
set -u
duskwalk=$1
demo=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export DUSKWALK_STORE=$work/farm.journal TZ=America/Chicago
bad=0
fail() { echo "FAILED: $*"; bad=1; }

# fails CODE WORDS CALL...: exit code, one line that holds the words, silence on standard output
fails() {
  local code=$1 words=$2
  shift 2
  "$duskwalk" "$@" >"$work/out" 2>"$work/err"
  local got=$?
  [ $got = "$code" ] || fail "exit $got, not $code: $*"
  [ ! -s "$work/out" ] || fail "prints on standard output though it failed: $*"
  [ "$(wc -l <"$work/err")" = 1 ] || fail "not one line: $* -> $(cat "$work/err")"
  grep -qF -- "$words" "$work/err" || fail "no \"$words\" in: $(cat "$work/err")"
}
# does WORDS CALL...: exit 0, and the words on standard output
does() {
  local words=$1
  shift
  "$duskwalk" "$@" >"$work/out" 2>"$work/err" || fail "exit $?: $* -> $(cat "$work/err")"
  grep -qF -- "$words" "$work/out" || fail "no \"$words\" from $*: $(cat "$work/out")"
}

fails 2 "no store" due
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
(cd "$bundle" && sha256sum --quiet --strict -c manifest-sha256.txt) || fail "sha256sum: manifest"
(cd "$bundle" && sha256sum --quiet --strict -c tagmanifest-sha256.txt) || fail "sha256sum: tags"
printf x >>"$bundle/data/day.csv"
fails 1 "day.csv" verify "$bundle"

does "rows" register --out "$work/r.csv"
does "rows" register --from 2026-08-01 --to 2026-08-31 --yard "Alder Bend" --out "$work/r.html"
grep -q "Alder Bend" "$work/r.html" || fail "the register does not name its yard"

fails 2 "no day" due --on 2026-02-30
fails 2 "no yard" register --yard Nowhere --out "$work/x.csv"
fails 2 ".csv or .html" register --out "$work/x.doc"
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

head -c 4096 /dev/urandom >"$work/none.journal"
cp "$work/none.journal" "$work/copy"
fails 1 "" due --store "$work/none.journal"
cmp -s "$work/none.journal" "$work/copy" || fail "a file that is no store was written to"

printf 'tap NOWHERE\n' >"$work/bad.play"
fails 1 "line 1" play "$work/bad.play" --out "$work/p" --store "$work/play.journal"
printf 'dance\n' >"$work/bad.play"
fails 2 "line 1" play "$work/bad.play" --out "$work/p" --store "$work/play.journal"

[ $bad = 0 ] && echo "all calls did what they promise"
exit $bad
