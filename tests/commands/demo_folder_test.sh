#!/usr/bin/env bash
# The demo clears only what it made itself: a folder with anything else in it is refused, untouched.
# Usage: demo_folder_test.sh DEMO_FOLDER
set -u
demo=$1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
bad=0
fail() { echo "FAILED: $*"; bad=1; }
play() { "$demo/play_evening.sh" "$@" >"$work/out" 2>"$work/err"; }  # PROGRAM FOLDER

mkdir -p "$work/own/records"
echo years >"$work/own/records/farm.journal"
play /bin/false "$work/own"
[ $? = 2 ] || fail "a folder with files of its own is taken"
[ "$(wc -l <"$work/err")" = 1 ] || fail "not one line: $(cat "$work/err")"
[ "$(cat "$work/own/records/farm.journal")" = years ] || fail "somebody's file was deleted"
[ "$(find "$work/own" | wc -l)" = 3 ] || fail "something was put beside somebody's files"

# /bin/false in place of the program: the folder is made and cleared, then the evening fails.
play /bin/false "$work/new" && fail "an evening without the program has no failure"
[ -e "$work/new/.duskwalk-demo" ] || fail "the folder is not marked"
mkdir -p "$work/new/pictures/old" && touch "$work/new/pictures/old/a.png" "$work/new/.hidden"
play /bin/false "$work/new"
[ "$(find "$work/new" -mindepth 1)" = "$work/new/.duskwalk-demo" ] ||
  fail "the last evening was not cleared: $(find "$work/new")"

# What the screens are tried on is never in a folder that is cleared.
grep -q '"\$out/try/try.journal"\|\$out/try/try.journal$' "$demo/run.sh" || fail "run.sh: the store to try"
grep -q 'play_evening.sh .* "\$out/evening"' "$demo/run.sh" || fail "run.sh: the evening's folder"

[ $bad = 0 ] && echo "only the demo's own folder is cleared"
exit $bad
