#!/usr/bin/env bash
# Questions are answered while the screens have the store open: the open program hands out a copy, and
# the store is one program's all the time. What would write is told so in one line and changes nothing.
# Usage: backup_while_open_test.sh DUSKWALK DEMO_FOLDER
set -u
duskwalk=$1
demo=$2
# shellcheck source=tests/commands/calls.sh
. "$(dirname "$0")/calls.sh"
export DUSKWALK_STORE=$work/farm/farm.journal
for sheet in yards colonies; do "$duskwalk" read "$demo/$sheet.csv" >/dev/null || fail "read $sheet"; done
"$duskwalk" bundle "$work" >"$work/out" || fail "bundle"
bundle=$(head -1 "$work/out")
closed_due=$("$duskwalk" due)
closed_state=$("$duskwalk" verify | tail -1)
mkdir "$work/bundles"

open_screens() {
  local before
  before=$(stat -c '%i %Z' "$DUSKWALK_STORE.look" 2>/dev/null)
  SDL_VIDEODRIVER=dummy SDL_AUDIODRIVER=dummy "$duskwalk" >"$work/screens" 2>&1 &
  screens=$!
  trap 'kill -9 "$screens" 2>/dev/null; rm -rf "$work"' EXIT
  for _ in $(seq 200); do # open: others may ask
    [ -S "$DUSKWALK_STORE.look" ] &&
      [ "$(stat -c '%i %Z' "$DUSKWALK_STORE.look" 2>/dev/null)" != "$before" ] && return
    kill -0 "$screens" 2>/dev/null || { echo "the screens did not open: $(cat "$work/screens")"; exit 1; }
    sleep 0.05
  done
  fail "nobody may ask"
}
open_screens
sums() { (cd "$work/farm" && find . -type f -exec sha256sum {} + | sort; ls -A); }
before=$(sums)

# ---- looks ----
[ "$("$duskwalk" due)" = "$closed_due" ] || fail "due says something else while the screens are open"
[ "$("$duskwalk" verify | tail -1)" = "$closed_state" ] || fail "verify says something else"
does '"on"' due --json
does "rows" register --out "$work/r.csv"
does "written" tags --out "$work/tags.pdf"
does "read back and good" bundle "$work/bundles"
does "rows of the register" bundle --sql "$work/tables"
does "read back and whole" backup "$work/copy"
[ "$("$duskwalk" verify --store "$work/copy" | tail -1)" = "$closed_state" ] || fail "the copy differs"
for n in 1 2 3 4; do "$duskwalk" due >"$work/due$n" & asked[n]=$!; done
for n in 1 2 3 4; do
  wait "${asked[n]}" || fail "four at once: one was turned away"
  [ "$(cat "$work/due$n")" = "$closed_due" ] || fail "four at once: one was told something else"
done

# ---- what writes ----
for call in "read $demo/counts.csv" "merge $bundle" "exchange $work"; do
  # shellcheck disable=SC2086
  fails 1 "another program has it open" $call
done
[ "$before" = "$(sums)" ] || fail "somebody who only asked changed something: $(sums)"
[ "$(stat -c %a "$DUSKWALK_STORE.look")" = 600 ] || fail "others may ask too"

# ---- a program that does not answer: one line, after a short time ----
kill -STOP "$screens"
fails 1 "another program has it open" due
kill -CONT "$screens"
does "On " due

# ---- a killed program's socket is in nobody's way ----
kill -KILL "$screens"
wait "$screens" 2>/dev/null
[ -S "$DUSKWALK_STORE.look" ] || fail "the killed program took its socket along"
does "On " due
open_screens
does "On " due
kill -TERM "$screens"
wait "$screens"
[ ! -e "$DUSKWALK_STORE.look" ] || fail "the socket outlived the screens"
does "" restore "$work/copy" --store "$work/new.journal"
[ "$("$duskwalk" verify --store "$work/new.journal" | tail -1)" = "$closed_state" ] ||
  fail "the restored store says something else"

# ---- a path longer than a socket's address may be ----
long=$work/$(printf 'a%.0s' $(seq 90))/$(printf 'b%.0s' $(seq 90))
mkdir -p "$long"
cp "$DUSKWALK_STORE" "$long/farm.journal"
export DUSKWALK_STORE=$long/farm.journal
open_screens
does "On " due
kill -TERM "$screens"
wait "$screens"

[ $bad = 0 ] && echo "the store was one program's, and answered all"
exit $bad
