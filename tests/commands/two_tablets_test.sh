#!/usr/bin/env bash
# Two tablets treat one colony on one evening. The second takes in the first one's stick from its
# screens, sees the contradiction with both sides, and the keeper settles it.
# Usage: two_tablets_test.sh DUSKWALK SCENARIOS
set -u
duskwalk=$(realpath "$1")
sheet=$(realpath "$2")/three_colonies.csv
# shellcheck source=tests/commands/calls.sh
. "$(dirname "$(realpath "$0")")/calls.sh"
cd "$work" || exit 1

does "Reed Corner" read "$sheet" --store one.journal
mkdir seed stick
does "" bundle seed --store one.journal
does "4 taken in" merge seed --store two.journal

{
  echo "at 2026-09-03T19:10:00+01:00"
  open_the_walk
  rest_of_the_walk
  cat <<'E2'
stick in stick
tap Register
tap Write the log
tap All days
tap Write now
see safe to pull
E2
} | plays one.journal first

{
  echo "at 2026-09-03T19:41:00+01:00"
  open_the_walk
  rest_of_the_walk
  cat <<'E2'
tap Register
tap Other tablets
see Nothing contradicts
stick in stick
tap Take in from
see 1 bundle found, 1 whole.
see Nothing is missing or broken.
shot taken-in
tap Back
see 1 contradiction to settle
see Vapor twice on one day
shot contradiction
tap R1: 1 g dihydrate set
see this tablet
see other tablet
see choose what holds first
tap both happened
shot settle
tap Settle it
see 0 contradictions to settle
see Nothing contradicts
# Once more: nothing changes.
tap Take in from
see 0 entries taken in
E2
} | plays two.journal second

does "Contradictions: 0" merge stick --store two.journal

# A third tablet, on which nothing was set: the label of the first is not in force there until its
# keeper says so.
does "uses a label, and this one none" merge stick --store three.journal
plays three.journal third <<'E3'
at 2026-09-04T19:10:00+01:00
tap Setup
tap Label
miss IN FORCE
tap Another tablet has a label
tap has a label
see Dose for a brood box
shot offered
hold Use it here too
see Nothing contradicts
tap Setup
tap Label
see IN FORCE
miss Another tablet has a label
E3
does "Contradictions: 0" merge stick --store three.journal
if grep -q "to be looked at" "$work/out"; then fail "what is used here is offered again"; fi
exit $bad
