#!/usr/bin/env bash
# From the screens alone: a backup in mid-walk, a new tablet that takes it in, both meeting in an
# exchange folder, and a damaged store that goes on with what can be read.
# Usage: screens_backup_test.sh DUSKWALK SCENARIOS
set -u
duskwalk=$(realpath "$1")
sheet=$(realpath "$2")/three_colonies.csv
# shellcheck source=tests/commands/calls.sh
. "$(dirname "$(realpath "$0")")/calls.sh"
cd "$work" || exit 1

does "Reed Corner" read "$sheet" --store one.journal
mkdir stick meeting

# ---- a backup while R1 dwells; what is entered afterwards is not in it ----
{
  echo "at 2026-09-03T19:10:00+01:00"
  label_and_kit
  cat <<'E'
tap Setup
tap About
tap Backups
see No backup
stick in stick
tap Yards
tap Reed Corner
tap Start walk
tap START
E
  ready_to_walk
  cat <<'E'
tap R1 is set
tap Menu
tap Setup
tap About
tap Backups
tap Back up to stick
wait 2s
see Backed up
see Whole, read back. Safe to pull.
see Thu 3 Sep 2026, 19:10
shot backed-up
tap 19:10, tablet
see end the walk first
tap Walk: on
E
  rest_of_the_walk
} | plays one.journal first
copy=$(echo stick/duskwalk-backup-2026-09-03-1910-*.journal)
[ -f "$copy" ] || fail "no backup lies on the stick"
cp "$copy" looked-at.journal
does "State hash" verify --store looked-at.journal

# ---- a new tablet takes it in: by its screens, under its own id ----
plays two.journal second <<'E'
at 2026-09-03T20:10:00+01:00
stick in stick
tap Setup
tap About
tap Backups
tap 19:10, tablet
see Nothing that is here is overwritten
shot take-in
tap Take it in
see 0 were here already
see Nothing is missing or broken
shot taken-in
tap Back
tap 19:10, tablet
tap Take it in
see 0 entries taken in
tap Yards
see Reed Corner
E
[ "$(ls stick)" = "$(basename "$copy")" ] || fail "something was left on the stick: $(ls stick)"
ls | grep -q taking-in && fail "the working copy was left"

# ---- both watch one folder ----
watch() {
  cat <<'E'
stick in meeting
tap Register
tap Other tablets
tap Exchange folder
see No folder is watched
shot exchange
tap Use meeting
wait 2s
E
}
{
  echo "at 2026-09-03T20:20:00+01:00"
  watch
  echo "see 1 put out"
} | plays one.journal third
{
  echo "at 2026-09-03T20:30:00+01:00"
  watch
  cat <<'E'
see 1 bundle taken in
shot exchanged
crash
tap Register
tap Other tablets
see watched
tap Setup
tap About
tap Backups
tap Back up on this tablet
wait 2s
see Backed up
E
} | plays two.journal fourth
[ "$(state one.journal)" = "$(state two.journal)" ] || fail "the tablets differ after the exchange"

# ---- a byte goes bad ----
/usr/bin/python3 - two.journal <<'P' || fail "no byte could be broken"
import sys
data = open(sys.argv[1], "rb").read()
if b"walk_closed" not in data: sys.exit(1)
open(sys.argv[1], "wb").write(data.replace(b"walk_closed", b"walk_clozed"))
P
plays two.journal fifth <<'E'
at 2026-09-04T08:00:00+01:00
tap 2 alarms
see go on with what can be read
shot damaged
tap Backups
stick in stick
tap Copy it as it is to stick
wait 2s
see Safe to pull
hold Go on with what can be read
see could be read and are here
shot goes-on
tap OK
miss Go on with what can be read
tap Register
tap Other tablets
tap Exchange folder
tap Look now
wait 2s
see taken in with 1 new entry
E
[ "$(state one.journal)" = "$(state two.journal)" ] || fail "the mended store lacks something"
[ -f two.journal.damaged-2026-09-04 ] || fail "the damaged store was not kept"
cmp -s two.journal.damaged-2026-09-04 stick/duskwalk-locked-2026-09-04-0800-*.journal ||
  fail "the copy is not the damaged store"
exit $bad
