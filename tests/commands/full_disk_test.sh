#!/usr/bin/env bash
# The disk that the store or the answer lies on is full, for real: a small file system in memory.
# Every command says so in one line and returns 1; nothing is lost and nothing half-written stays.
# Usage: full_disk_test.sh DUSKWALK DEMO_FOLDER     77: this machine does not let us mount
set -u
# shellcheck source=tests/commands/mounts.sh
. "$(dirname "$0")/mounts.sh"
duskwalk=$1
demo=$2
# shellcheck source=tests/commands/calls.sh
. "$(dirname "$0")/calls.sh"
small=$work/small
medium "$small" 24m
trap 'umount "$small"; rm -rf "$work"' EXIT
export DUSKWALK_STORE=$small/farm.journal

fill() { dd if=/dev/zero of="$small/filler" bs=4k oflag=append conv=notrunc status=none 2>/dev/null; }
state() { "$duskwalk" verify 2>/dev/null | grep "State hash" || fail "the store is not whole: $1"; }
# what lies on the small medium beside what should
left_over() { ls -A "$small" | grep -vE '^(filler|farm\.journal(-wal|\.tip|\.ballast)?)$'; }

# What a merge brings and what a restore starts from, on another disk.
"$duskwalk" read "$demo/season_yards.csv" --store "$work/other.journal" >/dev/null || fail "other"
"$duskwalk" bundle "$work" --store "$work/other.journal" >"$work/out" || fail "bundle of the other"
other=$(head -1 "$work/out")
"$duskwalk" backup "$work/other.copy" --store "$work/other.journal" >/dev/null || fail "other copy"
# A sheet of 2,000 yards: more than the pages that the store has free in itself.
{ echo "Yard,Notes"; for i in $(seq 2000); do echo "Yard $i,the gate by the kiln sticks"; done; } \
  >"$work/large.csv"

does "3" read "$demo/yards.csv"
does "29" read "$demo/colonies.csv"

# ---- the first entries on a full disk cost the room that was kept for them ----
fill
[ "$(df --output=avail "$small" | tail -1)" -lt 64 ] || fail "the medium is not full"
does "11" read "$demo/counts.csv"
fill
before=$(state "with its room spent")

# ---- then every command says that the disk is full ----
fails 1 "no room left on this disk" read "$work/large.csv"
fails 1 "no room left on this disk" backup "$small/farm.copy"
fails 1 "full" bundle "$small"
fails 1 "full" bundle "$small/tables" --sql
fails 1 "full" exchange "$small"
for form in csv html pdf; do fails 1 "full" register --out "$small/r.$form"; done
fails 1 "full" tags --out "$small/tags.pdf"
fails 1 "full" restore "$work/other.copy" --store "$small/new.journal"
fails 1 "no room left on this disk" read "$demo/yards.csv" --store "$small/new.journal"
[ -z "$(left_over)" ] || fail "half-written: $(left_over)"
"$duskwalk" merge "$other" >"$work/out" 2>"$work/err"
code=$?
if [ $code = 0 ]; then # a page was free for these few entries: then they are in
  before=$(state "after a merge that found room")
else
  fails 1 "no room left on this disk" merge "$other"
fi
[ "$before" = "$(state "after all that")" ] || fail "a full disk changed the store"
does "rows" register --out "$work/r.csv"
mkdir "$work/elsewhere"
does "whole" verify "$("$duskwalk" bundle "$work/elsewhere" | head -1)"

# ---- with room again it goes on, and nothing was lost ----
rm "$small/filler"
[ "$before" = "$(state "with room again")" ] || fail "freeing room changed the store"
does "2000 added" read "$work/large.csv"
does "Bundles: 1 found, 1 whole." merge "$other"
does "read back and whole" backup "$small/farm.copy"
[ "$(stat -c %s "$small/farm.journal.ballast")" = 16777216 ] || fail "the room is not kept again"

[ $bad = 0 ] && echo "a full disk lost nothing and was always said"
exit $bad
