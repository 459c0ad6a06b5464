#!/usr/bin/env bash
# A store is copied by hand and both copies are written on. Each takes in the other, one by its
# command, one by its screens: both have both sides and the same state, and so has every store that
# gets them by bundle, backup or exchange folder. Then the keeper strikes one side from the screens.
# Usage: forks_test.sh DUSKWALK SCENARIOS
set -u
duskwalk=$(realpath "$1")
sheet=$(realpath "$2")/three_colonies.csv
# shellcheck source=tests/commands/calls.sh
. "$(dirname "$(realpath "$0")")/calls.sh"
cd "$work" || exit 1

same() { [ "$(state "$1")" = "$(state "$2")" ] || fail "$1 and $2 differ: $3"; }

does "Reed Corner" read "$sheet" --store one.journal
cp one.journal two.journal

{
  echo "at 2026-09-03T19:10:00+01:00"
  open_the_walk
  rest_of_the_walk
} | plays one.journal first

plays two.journal second <<'E2'
at 2026-09-04T09:00:00+01:00
tap Kit
tap Cloths
tap Add cloth
tap OK
tap Add cloth
tap OK
E2

mkdir of_one of_two
does "" bundle of_one --store one.journal
does "" bundle of_two --store two.journal

# ---- each takes in the other ----
does "2 entries from 5 on came in beside those that were here" merge of_two --store one.journal
grep -q "from now on it writes as tablet" out || fail "the first tablet kept its id"
grep -q "Contradictions: 1." out || fail "the fork is no contradiction"
grep -q "Copies of tablet .* were both written on" out || fail "the fork is not described"
does "0 taken in" merge of_two --store one.journal
plays two.journal third <<'E2'
at 2026-09-05T09:00:00+01:00
stick in of_one
tap Register
tap Other tablets
tap Take in from
see Fork: a copy of tablet
see from now on it writes as tablet
shot taken-in
tap Back
see 1 contradiction to settle
shot contradictions
E2
# Under its new id the first says what it has read, and once more what was set on it: both come
# across. To the second, on which no label was set, the label is offered.
mkdir again
does "" bundle again --store one.journal
does "2 taken in" merge again --store two.journal
grep -q "looked at under Register, Other tablets: 1." out || fail "no label is offered: $(cat out)"
same one.journal two.journal "after each took in the other"
does "more events of other sides are kept, and are whole" verify --store one.journal

# ---- whatever carries the entries carries both sides ----
mkdir of_both meeting
does "" bundle of_both --store one.journal
does "" merge of_both --store three.journal
same one.journal three.journal "by one bundle"
does "" backup copy.journal --store two.journal
does "" restore copy.journal --store four.journal
same one.journal four.journal "by a backup"
does "1 put out" exchange meeting --store two.journal
does "1 taken in" exchange meeting --store five.journal
same one.journal five.journal "by an exchange folder"
does "" bundle tables --sql --store one.journal
[ "$(awk -F'\t' '$12 != "\\N"' tables/entry.copy | cut -f12 | sort -u | wc -l)" = 2 ] ||
  fail "the tables do not tell the sides"

# ---- the keeper strikes the side that was only tried out ----
plays one.journal fourth <<'E2'
at 2026-09-06T09:00:00+01:00
tap Register
tap Other tablets
see 2 tablets; 1 contradiction to settle
tap Written on in copies
see A copy of tablet
see 2 entries, Fri 4 Sep 2026 09:00
see choose what holds first
tap one was only tried out
shot settle
hold Strike all 2 of
see 0 contradictions to settle
crash
tap Kit
tap Cloths
shot cloths
E2
mkdir settled
does "" bundle settled --store one.journal
does "Contradictions: 0." merge settled --store two.journal
same one.journal two.journal "after one side was struck"

# ---- an entry of a side goes bad ----
cp one.journal bad.journal
/usr/bin/python3 - bad.journal <<'P' || fail "no byte could be broken"
import re, sys
data = open(sys.argv[1], "rb").read()
row = re.search(rb'side 0+1\d+ \{"event":', data)
if not row: sys.exit(1)
at = data.index(b"kit_added", row.end())
open(sys.argv[1], "wb").write(data[:at] + b"kit_addod" + data[at + 9:])
P
fails 1 "other sides of a fork" verify --store bad.journal
exit $bad
