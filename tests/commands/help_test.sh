#!/usr/bin/env bash
# `duskwalk help`: every command and option of --help stands in the man page and in each completion;
# man, mandoc and the shells themselves take them; what bash completes is asked of bash.
# 77: a shell or mandoc is not installed.
# Usage: help_test.sh DUSKWALK DEMO_FOLDER
set -u
for tool in bash zsh fish mandoc man; do
  command -v $tool >/dev/null || { echo "skipped: $tool is not installed"; exit 77; }
done
duskwalk=$1
demo=$2
# shellcheck source=tests/commands/calls.sh
. "$(dirname "$0")/calls.sh"
cd "$work" || exit 1

does "walk" help
does "--json" help due
cmp -s <("$duskwalk" help due) <("$duskwalk" due --help) || fail "help due is not due --help"
fails 2 "no command" help wander
fails 2 "one of them" help due --man
fails 2 "--completion" help --completion tcsh

"$duskwalk" help --man >duskwalk.1 || fail "help --man"
for shell in bash zsh fish; do
  "$duskwalk" help --completion $shell >completion.$shell || fail "completion $shell"
  $shell -n completion.$shell 2>err || fail "$shell does not read its completion: $(cat err)"
done
said=$(mandoc -T lint -W warning duskwalk.1 | grep -v "missing date")
[ -z "$said" ] || fail "mandoc says: $said"
said=$(man --warnings -l duskwalk.1 2>&1 >page)
[ -z "$said" ] || fail "man says: $said"
col -b <page >plain

commands=$("$duskwalk" --help | sed -n '/^Subcommands:/,$p' | awk '/^  [a-z]/ {print $1}')
[ "$(echo "$commands" | wc -l)" -ge 15 ] || fail "too few commands: $commands"
for command in $commands; do
  grep -q "duskwalk $command" plain || fail "the man page does not name $command"
  for shell in bash zsh fish; do
    grep -qw -- "$command" completion.$shell || fail "$shell does not complete $command"
  done
  for option in $("$duskwalk" "$command" --help | grep -oE '^  -[^ ]+' | grep -oE '\-\-[a-z-]+'); do
    [ "$option" = --help ] || grep -q -- "$option" plain || fail "the man page lacks $option"
    grep -q -- "-l ${option#--}" completion.fish || fail "fish does not complete $command $option"
    for shell in bash zsh; do
      grep -q -- "$option" completion.$shell || fail "$shell does not complete $command $option"
    done
  done
done

# completes WANT WORDS...: what bash offers for the last word
completes() {
  local want=$1
  shift
  got=$(bash -c '. ./completion.bash; compopt() { :; }; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1))
    _duskwalk; echo ${COMPREPLY[*]-}' bash "$@")
  [ "$got" = "$want" ] || fail "bash offers '$got', not '$want', for: $*"
}
completes "read restore register" duskwalk re
completes "--json" duskwalk due --j
completes "sun" duskwalk --theme s
completes "bash zsh fish" duskwalk help --completion ""
completes "" duskwalk due --on ""
got=$(fish -c "source completion.fish; complete -C 'duskwalk help --completion '" | cut -f 1 | sort | xargs)
[ "$got" = "bash fish zsh" ] || fail "fish offers '$got' for help --completion"
got=$(fish -c "source completion.fish; complete -C 'duskwalk exch'" | cut -f 1)
[ "$got" = "exchange" ] || fail "fish offers '$got' for exch"

# ---- standard output in place of a file ----
store=$work/farm.journal
"$duskwalk" read "$demo/yards.csv" --store "$store" >/dev/null || fail "read"
"$duskwalk" read "$demo/colonies.csv" --store "$store" >/dev/null || fail "read colonies"
"$duskwalk" register --out r.csv --store "$store" >/dev/null || fail "register"
"$duskwalk" register --out - --store "$store" >r.out || fail "register --out -"
cmp -s r.csv r.out || fail "--out - writes another register than --out FILE"
"$duskwalk" register --out - --form html --store "$store" | grep -q "<html" || fail "--form html"
"$duskwalk" register --out - --form pdf --store "$store" | head -c 5 | grep -q "^%PDF-" ||
  fail "--form pdf"
"$duskwalk" tags --out - --store "$store" | head -c 5 | grep -q "^%PDF-" || fail "tags --out -"
fails 2 "--form" register --out r.csv --form csv --store "$store"
full register --out - --store "$store"
for call in "exchange nowhere" "merge nowhere" "register --out nowhere/r.csv" \
  "tags --out nowhere/t.pdf"; do
  # shellcheck disable=SC2086
  fails 2 "no such folder" $call --store "$store"
done
fails 2 "nowhere" bundle nowhere --store "$store"
fails 1 "nowhere" backup nowhere/b --store "$store"
[ ! -e nowhere ] || fail "a folder was made that was not there"

[ $bad = 0 ] && echo "help, man page and completions say what the parser knows"
exit $bad
