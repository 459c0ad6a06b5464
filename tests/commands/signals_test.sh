#!/usr/bin/env bash
# The program is asked to end (a logout, Ctrl-C, the system that goes down) or killed: the store is
# closed whole with its log folded in, and nothing half-written stays under any name.
# Usage: signals_test.sh DUSKWALK DEMO_FOLDER
set -u
duskwalk=$1
demo=$2
# shellcheck source=tests/commands/calls.sh
. "$(dirname "$0")/calls.sh"
export DUSKWALK_STORE=$work/farm/farm.journal
for sheet in yards colonies; do "$duskwalk" read "$demo/$sheet.csv" >/dev/null || fail "read $sheet"; done
whole=$("$duskwalk" verify | tail -1)

# until WORDS...: waits until the command succeeds, 10 s at most
until_true() {
  for _ in $(seq 200); do
    "$@" 2>/dev/null && return
    sleep 0.05
  done
  fail "never: $*"
}
closed_whole() {
  [ ! -e "$DUSKWALK_STORE-wal" ] || fail "$1: the log was not folded in"
  [ ! -e "$DUSKWALK_STORE.look" ] || fail "$1: its socket is still there"
  [ "$("$duskwalk" verify | tail -1)" = "$whole" ] || fail "$1: the store says something else"
}

# ---- the screens, and the watch on an exchange folder ----
mkdir "$work/shared"
for signal in HUP TERM INT; do
  # By a shell of its own: what runs behind a script ignores SIGINT.
  /usr/bin/python3 -c 'import os, signal, sys
signal.signal(signal.SIGINT, signal.SIG_DFL)
os.environ.update(SDL_VIDEODRIVER="dummy", SDL_AUDIODRIVER="dummy")
os.execv(sys.argv[1], sys.argv[1:])' "$duskwalk" >"$work/screens" 2>&1 &
  screens=$!
  until_true test -e "$DUSKWALK_STORE-wal"
  sleep 0.3
  kill -$signal $screens
  wait $screens
  code=$?
  [ $code = 0 ] || fail "the screens end with $code on SIG$signal: $(cat "$work/screens")"
  closed_whole "the screens, SIG$signal"

  rm -f "$work/watch" # the one before it must not speak for this one
  /usr/bin/python3 -c 'import os, signal, sys
signal.signal(signal.SIGINT, signal.SIG_DFL)
os.execv(sys.argv[1], sys.argv[1:])' "$duskwalk" exchange "$work/shared" --every 3600 >"$work/watch" 2>&1 &
  watch=$!
  until_true grep -q "Bundles:" "$work/watch"
  kill -$signal $watch
  wait $watch
  code=$?
  [ $code = 0 ] || fail "the watch ends with $code on SIG$signal"
  closed_whole "the watch, SIG$signal"
done

# ---- what writes a file, at any moment: it is there whole or not at all ----
# A store large enough that there are moments: 2,000 yards, each with a long note.
{ echo "Yard,Notes"; for i in $(seq 2000); do echo "Yard $i,$(printf 'the gate by the kiln sticks %.0s' 1 2 3 4)"; done; } >"$work/large.csv"
"$duskwalk" read "$work/large.csv" >/dev/null || fail "the large sheet"
whole=$("$duskwalk" verify | tail -1)
mkdir "$work/out.d"
cd "$work/out.d" || exit 1
# ends SIGNAL SECONDS NAME CALL...: the signal comes after so long; NAME is whole or not there
ends() {
  local signal=$1 after=$2 name=$3
  shift 3
  "$duskwalk" "$@" >"$work/said" 2>"$work/err" &
  local call=$!
  sleep "$after"
  kill -$signal $call 2>/dev/null
  wait $call 2>/dev/null
  local code=$?
  if [ -e "$name" ]; then
    if [ ! -d "$name" ]; then # looked at elsewhere: that makes files beside it
      rm -rf "$work/looked" && mkdir "$work/looked" && cp "$name" "$work/looked/copy"
      [ "$("$duskwalk" verify --store "$work/looked/copy" 2>/dev/null | tail -1)" = "$whole" ] ||
        fail "$* after $after: $name is half"
    fi
    # A killed one leaves its parts in the folder, for the next call to clean up.
    [ ! -d "$name" ] || [ -e "$name/load.sql" ] || [ -z "$(ls "$name" | grep -v '\.part-')" ] || fail "$* after $after: $name has no load.sql"
    [ ! -e "$name/load.sql" ] || [ "$(ls "$name" | wc -l)" = 11 ] || fail "$* after $after: $(ls "$name")"
    [ $signal = KILL ] || [ ! -d "$name" ] || [ -e "$name/load.sql" ] || fail "$* after $after: half"
  fi
  # 128 and more: it came before the program could hear it; then nothing had begun.
  [ $code = 0 ] || [ $code -ge 128 ] || [ "$(wc -l <"$work/err")" = 1 ] ||
    fail "$* after $after: not one line: $(cat "$work/err")"
  if [ $signal = KILL ]; then
    [ -e "$name/load.sql" ] || [ ! -d "$name" ] || does "" "$@" # the next call cleans up
    rm -rf "$name"
    does "" "$@" # cleans up what the killed one left
  fi
  [ -z "$(ls -A . | grep -v "^$name$")" ] || fail "$* after $after: left $(ls -A)"
  [ ! -d "$name" ] || [ -z "$(ls -A "$name" | grep part)" ] || fail "$* after $after: left $(ls -A "$name")"
  rm -rf "$name"
}
for signal in TERM HUP KILL; do
  for after in 0.05 0.1 0.2 0.3 0.4 0.6; do
    ends $signal $after copy backup copy
    ends $signal $after tables bundle --sql tables
  done
done
closed_whole "after all that"

# ---- twice the same signal ends at once, and one that is ignored stays so ----
mkfifo "$work/pipe"
"$duskwalk" mites - <"$work/pipe" >"$work/said" 2>&1 &
call=$!
exec 9>"$work/pipe"
sleep 0.3
kill -TERM $call
wait $call 2>/dev/null
[ $? -ne 0 ] || fail "a question that never came was answered"
exec 9>&-

[ $bad = 0 ] && echo "asked to end, it ended whole"
exit $bad
