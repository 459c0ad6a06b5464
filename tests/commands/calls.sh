# Sourced by the tests of the commands. Wants $duskwalk; makes $work, which goes at the end.
# shellcheck shell=bash
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export TZ=America/Chicago
bad=0
fail() { echo "FAILED: $*"; bad=1; }

# A copy of the store that a played script left in FOLDER, for this test alone.
played() { # FOLDER NAME
  for file in "$1/$2.journal"*; do cp "$file" "$work/$(basename "$file")" || fail "no $file"; done
  store=$work/$2.journal
}
# fails CODE WORDS CALL...: exit code, one line that holds the words, silence on standard output
fails() {
  local code=$1 words=$2
  shift 2
  "$duskwalk" "$@" >"$work/out" 2>"$work/err"
  local got=$?
  [ $got = "$code" ] || fail "exit $got, not $code: $*"
  [ ! -s "$work/out" ] || fail "prints on standard output though it failed: $*"
  [ "$(wc -l <"$work/err")" = 1 ] || fail "not one line: $* -> $(cat "$work/err")"
  grep -qF -- "$words" "$work/err" || fail "no \"$words\" in: $(cat "$work/err")"
}
# does WORDS CALL...: exit 0, and the words on standard output
does() {
  local words=$1
  shift
  "$duskwalk" "$@" >"$work/out" 2>"$work/err" || fail "exit $?: $* -> $(cat "$work/err")"
  grep -qF -- "$words" "$work/out" || fail "no \"$words\" from $*: $(cat "$work/out")"
}
# full CALL...: standard output is a full disk
full() {
  "$duskwalk" "$@" >/dev/full 2>"$work/err"
  local got=$?
  [ $got = 1 ] || fail "exit $got, not 1, when standard output is full: $*"
  [ "$(wc -l <"$work/err")" = 1 ] || fail "standard output full, not one line: $* -> $(cat "$work/err")"
  grep -qF "standard output cannot be written" "$work/err" || fail "$* -> $(cat "$work/err")"
}
# plays STORE NAME (script on standard input): it goes through to its end
plays() {
  cat >"$2.play"
  does "steps played" play "$2.play" --store "$1" --out "$2"
}
# Steps of a play script: a label, a vaporizer and a cloth; all that is asked before a walk.
label_and_kit() {
  printf 'tap %s\n' Setup Label NEXT "label of 2021" "Use this label" Kit "Add vaporizer" OK Cloths \
    "Add cloth" OK
}
# The walk of three_colonies.csv up to R1 under vapor; and from there to its end.
open_the_walk() {
  label_and_kit
  printf 'tap %s\n' Yards "Reed Corner" "Start walk" START
  ready_to_walk
  echo "tap R1 is set"
}
rest_of_the_walk() {
  cat <<'E'
wait 95s
tap R1 is covered
tap Skip
tap Dead-out
tap Skip
tap Dead-out
wait 600s
tap Cloth off R1
tap Close the walk
tap Done
E
}
state() { "$duskwalk" verify --store "$1" | grep "State hash"; }
ready_to_walk() {
  printf 'tap %s\n' None "Respirator on" "Eye protection on" "Gloves on" "Rinse water here" \
    "Nobody downwind"
}
