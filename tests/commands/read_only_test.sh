#!/usr/bin/env bash
# The store may be read and not written: a read-only medium, and files and a folder without write
# right for this user. Questions are answered, entries refused in one line with 1, no byte changes.
# Usage: read_only_test.sh DUSKWALK DEMO_FOLDER     77: this machine does not let us mount
set -u
# shellcheck source=tests/commands/mounts.sh
. "$(dirname "$0")/mounts.sh"
duskwalk=$1
demo=$2
# shellcheck source=tests/commands/calls.sh
. "$(dirname "$0")/calls.sh"
held=$work/held
medium "$held" 40m
trap 'umount "$held"; rm -rf "$work"' EXIT
store=$held/farm.journal
for sheet in yards colonies; do "$duskwalk" read "$demo/$sheet.csv" --store "$store" >/dev/null || fail "$sheet"; done
"$duskwalk" bundle "$work" --store "$store" >"$work/said" || fail "bundle"
"$duskwalk" read "$demo/season_yards.csv" --store "$work/other.journal" >/dev/null || fail "other"
"$duskwalk" bundle "$work" --store "$work/other.journal" >"$work/said" || fail "other bundle"
other=$(head -1 "$work/said")
sums() { (cd "$held" && find . -type f -exec sha256sum {} + | sort; ls -A); }

# answers_only: what every store does that may not be written
answers_only() {
  local before
  before=$(sums)
  does "never counted" due --store "$store"
  does "every event is possible" verify --store "$store"
  does "rows" register --out "$out/r.csv" --store "$store"
  does "" bundle "$out" --store "$store"
  does "read back and whole" backup "$out/copy" --store "$store"
  fails 1 "may not be written" read "$demo/counts.csv" --store "$store"
  fails 1 "may not be written" merge "$other" --store "$store"
  fails 1 "may not be written" exchange "$out" --store "$store"
  for file in r.csv r.html r.pdf; do fails 1 "" register --out "$held/$file" --store "$store"; done
  fails 1 "" bundle "$held" --store "$store"
  fails 1 "" backup "$held/copy" --store "$store"
  fails 1 "" read "$demo/yards.csv" --store "$held/new.journal"
  [ "$before" = "$(sums)" ] || fail "a store that may not be written was changed"
}

# ---- files and folder without write right; root may write all the same, so as somebody else ----
as_nobody="setpriv --reuid=65534 --regid=65534 --clear-groups"
chmod 0755 "$work" "$held"
chmod 0644 "$held"/*
mkdir -m 0777 "$work/nobody"
out=$work/nobody
if $as_nobody "$duskwalk" --version >/dev/null 2>&1; then
  program=$duskwalk
  printf '#!/bin/sh\nexec %s %s "$@"\n' "$as_nobody" "$program" >"$work/as_nobody"
  chmod +x "$work/as_nobody"
  duskwalk=$work/as_nobody
  answers_only
  duskwalk=$program
else
  echo "skipped: another user may not start the program, so rights were not looked at"
fi

# ---- a read-only medium ----
mount -o remount,ro "$held" || fail "remount"
mkdir "$work/answers"
out=$work/answers
answers_only

[ $bad = 0 ] && echo "what may not be written was read, and not written"
exit $bad
