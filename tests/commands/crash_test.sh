#!/usr/bin/env bash
# A walk that is killed again and again ends as the same walk that never was: the journal's state
# hash, the register, the day's log and the come-back list are equal to the last byte.
#
# The walk is written once, below. A line "crash?" stands wherever the program is killed (SIGKILL, by
# the play step `crash`); without crashes those lines are left out. Both walks start from copies of
# one store, so that even the ids are the same. A third walk, one second longer, must differ.
# Usage: crash_test.sh DUSKWALK
set -u
duskwalk=$(realpath "$1")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export TZ=America/Chicago
bad=0
fail() { echo "FAILED: $*"; bad=1; }
run() { "$duskwalk" "$@" >"$work/said" 2>&1 || { cat "$work/said"; fail "exit $?: $*"; }; }

cd "$work" || exit 1
printf 'Yard\nOak Corner\n' >yards.csv
printf 'Yard,Colony,Brood boxes\nOak Corner,%s,%d\n' O1 1 O2 2 O3 2 O4 1 |
  awk 'NR == 1 || !/^Yard/' >colonies.csv

# ---- one store with a kit and a label ----
cat >kit.play <<'E2'
at 2026-08-14T18:00:00-05:00
tap Kit
tap Add vaporizer
tap OK
tap Cloths
tap Add cloth
tap OK
tap Add cloth
tap OK
tap Setup
tap Label
tap NEXT
tap label of 2021
tap Use this label
E2
mkdir seed
export DUSKWALK_STORE=$work/seed/farm.journal
run read yards.csv
run read colonies.csv
run play kit.play --out seed/pictures

# ---- the walk: killed at the open gate, under vapor, right after each kind of tap, while covered,
# ---- passed over, paused, at the summary, twice in a row ----
cat >walk.txt <<'E2'
at 2026-08-14T19:50:00-05:00
tap Yards
tap Oak Corner
tap Start walk
tap START
tap None
crash?
tap Respirator on
tap Eye protection on
crash?
tap Gloves on
tap Rinse water here
tap Nobody downwind
wait 60s
tap O1 is set
crash?
wait 40s
crash?
see 0:50
wait 52s
see Lift from O1
tap O1 is covered
crash?
see O1
see 10:00
wait 30s
crash?
crash?
see 9:30
tap O4 is set
wait 20s
tap Flying
tap O4: heavy
crash?
wait 30s
at 2026-08-14T19:33:00-05:00
crash?
see 0:40
wait 42s
tap O4 is covered
at 2026-08-14T19:54:34-05:00
wait 30s
tap O2 is set
crash?
tap Undo last
hold Undo it
crash?
miss Vapor in O2
tap O2 is set
wait 92s
tap O2 is covered
crash?
wait 10s
tap Pause
tap Pause the walk
crash?
see The walk is paused
wait 45s
tap Resume the walk
tap Skip
tap Too weak
crash?
wait 400s
tap Cloth off O4
wait 300s
crash?
tap Cloth off O2
crash?
see all done
tap Close the walk
crash?
E2
# After a crash the walk is on the screen by itself.
sed 's/^crash?$/crash/' walk.txt >killed.play
grep -v '^crash?$' walk.txt >whole.play
sed 's/^wait 40s$/wait 41s/; s/^see 0:50$/see 0:49/' whole.play >other.play
crashes=$(grep -c '^crash$' killed.play)
[ "$crashes" -ge 15 ] || fail "only $crashes crashes"

# play_from_seed NAME: plays NAME.play on a copy of the seed; leaves NAME.verify and its tables
play_from_seed() {
  cp -r seed "$1"
  export DUSKWALK_STORE=$work/$1/farm.journal
  run play "$1.play" --out "$1/pictures"
  "$duskwalk" verify >"$1.verify" || fail "verify after $1"
  run register --out "$1.csv"
  "$duskwalk" due --on 2026-08-15 --json >"$1.due" || fail "due after $1"
  run bundle "$1" --day 2026-08-14
  cp "$1"/duskwalk-*/data/day.csv "$1.day" && cp "$1"/duskwalk-*/data/events.jsonl "$1.events" ||
    fail "no bundle after $1"
}
for walk in whole killed other; do play_from_seed $walk; done

grep -q '^State hash [0-9a-f]' whole.verify || fail "verify tells no state hash"
for kind in verify csv due day events; do
  [ -s whole.$kind ] || fail "whole.$kind is empty"
  cmp -s whole.$kind killed.$kind || { diff whole.$kind killed.$kind | head -6; fail "$kind differs"; }
done
cmp -s whole.verify other.verify && fail "a walk one second longer has the same state hash"
[ "$(grep -c . whole.csv)" = 6 ] || fail "not 5 rows in the register: $(cat whole.csv)"

[ $bad = 0 ] && echo "$crashes crashes, nothing lost: $(tail -1 whole.verify)"
exit $bad
