#!/usr/bin/env bash
# A backup by the command while the screens have the store open: one clear line, nothing written;
# after they are closed it works. Nor does any other command get at the store meanwhile.
# Usage: backup_while_open_test.sh DUSKWALK DEMO_FOLDER
set -u
duskwalk=$1
demo=$2
# shellcheck source=tests/commands/calls.sh
. "$(dirname "$0")/calls.sh"
export DUSKWALK_STORE=$work/farm/farm.journal
for sheet in yards colonies; do "$duskwalk" read "$demo/$sheet.csv" >/dev/null || fail "read $sheet"; done

SDL_VIDEODRIVER=dummy SDL_AUDIODRIVER=dummy "$duskwalk" >"$work/screens" 2>&1 &
screens=$!
trap 'kill "$screens" 2>/dev/null; rm -rf "$work"' EXIT
# Open: the log beside the store is there.
for _ in $(seq 200); do
  [ -e "$DUSKWALK_STORE-wal" ] && break
  kill -0 "$screens" 2>/dev/null || { echo "the screens did not open: $(cat "$work/screens")"; exit 1; }
  sleep 0.05
done
sums() { (cd "$work/farm" && sha256sum -- *); }
before=$(sums)
fails 1 "another program has it open" backup "$work/copy"
for call in due verify "read $demo/counts.csv" "bundle $work" "exchange $work" \
  "register --out $work/r.csv"; do
  # shellcheck disable=SC2086
  fails 1 "another program has it open" $call
done
kill -0 "$screens" 2>/dev/null || fail "the screens are gone: $(cat "$work/screens")"
[ "$before" = "$(sums)" ] || fail "a refused command changed something"
[ -z "$(find "$work" -maxdepth 1 -name 'copy*' -o -maxdepth 1 -name 'r.csv*' -o -maxdepth 1 -name 'duskwalk-*')" ] ||
  fail "a refused command left a file"

kill -TERM "$screens"
wait "$screens" 2>/dev/null
does "read back and whole" backup "$work/copy"
does "" restore "$work/copy" --store "$work/new.journal"
[ "$("$duskwalk" verify | tail -1)" = "$("$duskwalk" verify --store "$work/new.journal" | tail -1)" ] ||
  fail "the restored store says something else"

[ $bad = 0 ] && echo "the store was one program's at a time"
exit $bad
