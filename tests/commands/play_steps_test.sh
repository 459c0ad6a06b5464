#!/usr/bin/env bash
# The steps of a play script do what the contract of the commands says of them: comments, short and
# long presses, the alarm while time passes, sticks that outlive a crash, yards that were given up.
# Usage: play_steps_test.sh DUSKWALK
set -u
duskwalk=$(realpath "$1")
# shellcheck source=tests/commands/calls.sh
. "$(dirname "$(realpath "$0")")/calls.sh"
cd "$work" || exit 1
mkdir seed
printf 'Yard\nOak Corner\n' >yards.csv
printf 'Yard,Colony,Brood boxes\nOak Corner,O1,1\nOak Corner,O2,2\n' >colonies.csv
export DUSKWALK_STORE=$work/seed/farm.journal

# plays NAME (script on standard input): it goes through to its end
plays() {
  cat >"$1.play"
  does "steps played" play "$1.play" --out "$1"
}
# stops CODE WORDS (script on standard input)
stops() {
  cat >stop.play
  fails "$1" "$2" play stop.play --out stop
}

plays kit <<'E2'
at 2026-08-14T18:00:00-05:00   # in daylight
read yards.csv      # beside this script
read colonies.csv
tap Kit             # trailing comments go on every step
tap Add vaporizer
tap OK
tap Cloths
tap Add cloth
tap OK
tap Setup
tap Label
tap NEXT
tap label of 2021
hold Use this label # a long press on a button for taps is a tap
see Setup
E2

# ---- a walk: a short press on "Undo it" does nothing, a long one strikes ----
plays walk <<'E2'
at 2026-08-14T19:50:00-05:00
tap Yards
tap Oak Corner
tap Start walk
tap START
tap None
tap Respirator on
tap Eye protection on
tap Gloves on
tap Rinse water here
tap Nobody downwind
tap O1 is set
targets before
tap Undo last
tap Undo it         # too short
see Undo it
miss O1 is set
hold Undo it
see O1 is set
tap O1 is set
wait 80s
targets under
wait 30s
targets after
E2
/usr/bin/python3 - <<'P' || fail "the alarm does not run while time passes"
import json
tones = [json.load(open(f"walk/{n}.json"))["tones"] for n in ("before", "under", "after")]
assert tones[0] == tones[1] == 0 and tones[2] >= 2, tones
P
does "Walk open in Oak Corner since 2026-08-14 19:50" due --on 2026-08-15
"$duskwalk" due --on 2026-08-15 --json >due.json || fail "due --json"
/usr/bin/python3 - <<'P' || fail "due --json: open_walks"
import json
assert json.load(open("due.json"))["open_walks"] == [
    {"yard": "Oak Corner", "opened": "2026-08-14T19:50:00-05:00"}], open("due.json").read()
P

# ---- a stick: relative to the current folder, made when missing, still in after a crash ----
plays stick <<'E2'
at 2026-08-14T20:40:00-05:00
stick in sticks/usb   # two folders that are not there yet
crash
crash
tap Menu
tap Register
tap Write the log
see STICK
read yards.csv        # closes the screens and opens them again
tap Menu
tap Register
tap Write the log
see STICK
tap usb
tap Write now
wait 3s
see safe to pull
stick out
crash
tap Menu
tap Register
tap Write the log
miss STICK
E2
[ "$(find sticks/usb -name bagit.txt | wc -l)" = 1 ] || fail "no bundle on the stick"
does "whole" verify "$(find "$work/sticks/usb" -mindepth 1 -maxdepth 1 -type d)"

# ---- a yard that was given up keeps its rows, also beside a new one of its name ----
plays give_up <<'E2'
at 2026-08-14T20:41:00-05:00
tap O1 is covered
see After the break
tap Respirator on
tap Eye protection on
tap Gloves on
tap Rinse water here
tap Nobody downwind
tap Skip
tap Too weak
wait 11min
tap Cloth off O1
tap Close the walk
tap Yards
tap Oak Corner
tap More
hold Give up yard
tap Add yard
tap O
tap a
tap k
tap SPACE
tap c
tap o
tap r
tap n
tap e
tap r
tap OK
see Oak corner
E2
does "3 rows" register --yard "oak CORNER" --out both.csv
does "3 rows" register --yard " Oak corner " --out "$work/both.html"

# ---- what fails, and in which line ----
export DUSKWALK_STORE=$work/stop.journal
stops 1 "stop.play: line 3: \"Write now\" is grey" <<'E2'
tap Register
tap Write the log
tap Write now
E2
stops 1 "stop.play: line 1: no target \"Nowhere\"" <<<'tap Nowhere # at all'
stops 2 "line 1: tap: the label is missing" <<<'tap # START'
stops 2 "line 2: there is no step \"dance\"" <<<$'wait 1s\ndance'

[ $bad = 0 ] && echo "the steps do what is said of them"
exit $bad
