#!/usr/bin/env bash
# What comes from outside (file names, names of yards, bundles) is printed without what a terminal
# obeys, and every error is one line.
# Usage: terminal_test.sh DUSKWALK DEMO_FOLDER COMMANDS_SOURCES
set -u
duskwalk=$1
demo=$2
sources=$3
# shellcheck source=tests/commands/calls.sh
. "$(dirname "$0")/calls.sh"
store=$work/farm.journal
"$duskwalk" read "$demo/yards.csv" --store "$store" >/dev/null || fail "read"
"$duskwalk" bundle "$work" --store "$store" >"$work/said" || fail "bundle"
bundle=$(head -1 "$work/said")

esc=$(printf '\033')
odd=$work/$(printf 'a\033]0;title\007b\nc\302\233d')
# clean: the last call printed nothing that a terminal obeys
clean() {
  if LC_ALL=C grep -q "[$(printf '\001-\010\013-\037\177')]" "$work/out" "$work/err" ||
    LC_ALL=C grep -q "$(printf '\302[\200-\237]')" "$work/out" "$work/err"; then
    fail "a terminal would obey: $*: $(cat -v "$work/out" "$work/err")"
  fi
}
for call in due verify tags register bundle; do
  case $call in
  tags | register) set -- "$call" --out "$odd/x.pdf" --store "$store" ;;
  bundle) set -- bundle "$odd" --store "$store" ;;
  *) set -- "$call" --store "$odd" ;;
  esac
  "$duskwalk" "$@" >"$work/out" 2>"$work/err"
  [ "$(wc -l <"$work/err")" = 1 ] || fail "not one line: $* -> $(cat -v "$work/err")"
  clean "$@"
done
fails 2 "" verify "$odd"
clean verify
fails 2 "" read "$odd"
clean read
fails 2 "" "$(printf 'due\033[31m')"
clean "an unknown word"
fails 2 "" light --lat 1 --lon 1 --date 2026-08-14 --zone "$odd"
clean light
cp -r "$bundle" "$odd"
"$duskwalk" verify "$odd" >"$work/out" 2>"$work/err" || fail "verify of a bundle with an odd name"
[ "$(wc -l <"$work/out")" = 1 ] || fail "not one line: $(cat -v "$work/out")"
clean verify of a bundle
echo x >"$odd/data/$(printf 'a\033[31m\nb')"
"$duskwalk" verify "$odd" >"$work/out" 2>"$work/err"
[ "$(wc -l <"$work/err")" = 1 ] || fail "not one line: $(cat -v "$work/err")"
clean verify of a damaged bundle
"$duskwalk" merge "$odd" --store "$work/new.journal" >"$work/out" 2>"$work/err"
clean merge
mkdir "$work/shared"
cp -r "$bundle" "$work/shared/$(basename "$bundle")$(printf '\033[31m\nx')"
does "Bundles:" exchange "$work/shared" --store "$work/other.journal"
clean exchange
echo "{\"question\":\"$esc[31m\"}" | "$duskwalk" mites - >"$work/out" 2>"$work/err"
clean mites

# ---- there is one way out: nothing else in the commands prints a text as it is ----
others=$(grep -nE 'fmt::print\(|std::cout *<<|std::cerr|printf\(' "$sources"/*.cpp |
  grep -vE 'for_terminal\(|/(say|progress_line|cli)\.cpp:|snprintf')
[ -z "$others" ] || fail "printed past say(): $others"

[ $bad = 0 ] && echo "no terminal was told what to do"
exit $bad
