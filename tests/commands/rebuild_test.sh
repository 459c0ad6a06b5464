#!/usr/bin/env bash
# A script of some thirty lines, written by the data dictionary alone, finds the treatments of the
# demo's evening in its journal and in its bundle: they are those of the program's own register.
# Usage: rebuild_test.sh DUSKWALK PLAYED_FOLDER REBUILD_SCRIPT
set -u
duskwalk=$1
rebuild=$3
# shellcheck source=tests/commands/calls.sh
. "$(dirname "$0")/calls.sh"
played "$2" evening
[ "$(grep -cvE '^ *(#|$)' "$rebuild")" -le 40 ] || fail "the script has grown"
"$duskwalk" bundle "$work" --store "$store" >"$work/said" || fail "bundle"
bundle=$(head -1 "$work/said")
/usr/bin/python3 "$rebuild" "$store" >"$work/from_journal" || fail "from the journal"
/usr/bin/python3 "$rebuild" "$bundle/data/events.jsonl" >"$work/from_bundle" || fail "from the bundle"
/usr/bin/python3 - "$bundle/data/register.csv" >"$work/want" <<'P'
import csv, sys
rows = [r for r in csv.DictReader(open(sys.argv[1], encoding="utf-8-sig", newline=""))
        if r["struck"] == "no" and r["dose_mg"] and r["time"] and r["entered_late"] == "no"]
last = max(r["date"] for r in rows)
for r in sorted(rows, key=lambda r: r["when"]):
    if r["date"] == last:
        print(f"{r['when']},{r['colony']},{r['dose_mg']}")
P
[ "$(wc -l <"$work/want")" -ge 8 ] || fail "the evening has too few treatments: $(cat "$work/want")"
for from in journal bundle; do
  diff "$work/want" "$work/from_$from" || fail "the $from tells other treatments"
done
[ -f "$bundle/data/dictionary.md" ] || fail "the bundle has no data dictionary"
cmp -s "$bundle/data/dictionary.md" <("$duskwalk" help --dictionary) ||
  fail "the bundle's dictionary is another one"
[ $bad = 0 ] && echo "$(wc -l <"$work/want") treatments rebuilt from journal and bundle"
exit $bad
