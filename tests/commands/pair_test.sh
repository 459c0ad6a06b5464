#!/usr/bin/env bash
# Three tablets: two pair by their words, the third is a stranger whose entries are kept and held
# back, taken in, and kept out again. Whoever only holds a bundle strikes nothing.
# Usage: pair_test.sh DUSKWALK SCENARIOS
set -u
duskwalk=$(realpath "$1")
sheet=$(realpath "$2")/three_colonies.csv
# shellcheck source=tests/commands/calls.sh
. "$(dirname "$(realpath "$0")")/calls.sh"
cd "$work" || exit 1

words() { "$duskwalk" pair --store "$1" | sed -n 's/^    \([a-z ]*\)$/\1/p'; }
shows() { "$duskwalk" tags --yard "$2" --out "$work/tags.pdf" --store "$1" >/dev/null 2>&1; }
name_of() { "$duskwalk" pair --store "$1" | sed -n 's/^This tablet is \([0-9a-f]*\)\..*/\1/p'; }

does "Reed Corner" read "$sheet" --store one.journal
does "Never paired" pair --store one.journal
[ "$(wc -w <<<"$(words one.journal)")" = 8 ] || fail "not eight words: $(words one.journal)"
[ "$(stat -c %a one.journal.key)" = 600 ] || fail "the key may be read by others"
fails 2 "--words: the words of a tablet are eight, these are 2" pair --store one.journal --words "acorn barley"
fails 2 "no word of the list" pair --store one.journal --words "zzzz a b c d e f g"
fails 2 "the words of this tablet" pair --store one.journal --words "$(words one.journal)"
fails 2 "not what a tablet's QR code says" pair --store one.journal --code DW00
fails 2 "no tablet whose entries are here" pair --store one.journal --take-in 00000000

# Both ways: two by its words, one by its code.
does "paired with the tablet" pair --store one.journal --words "$(words two.journal)"
code=$("$duskwalk" pair --store one.journal | sed -n 's/^The same as a code: //p')
does "paired with the tablet" pair --store two.journal --code "$code"

mkdir from_one from_two from_three
does "" bundle from_one --store one.journal
ls from_one/*/data/signatures.txt >/dev/null || fail "the bundle is not signed"
does "taken in" merge from_one --store two.journal
if grep -q "Held back" "$work/out"; then fail "a paired tablet is held back"; fi
does "events" verify --store two.journal
if grep -q "Do not count" "$work/out"; then fail "verify: a paired tablet does not count"; fi

# A stranger reads the same sheet; nothing of it counts until somebody says so.
sed 's/Reed Corner/Stranger Hill/' "$sheet" >strange.csv
does "Stranger Hill" read strange.csv --store three.journal
does "" bundle from_three --store three.journal
before=$(state one.journal)
does "Held back: tablet $(name_of three.journal) (not paired)" merge from_three --store one.journal
grep -q "adds 3 colonies of" "$work/out" || fail "not said what it would do: $(cat "$work/out")"
grep -q -- "--take-in $(name_of three.journal)" "$work/out" || fail "not said how to decide"
if shows one.journal "Stranger Hill"; then fail "a stranger's yard is shown"; fi
[ "$(state one.journal)" = "$before" ] || fail "a stranger changed what is shown"
does "not paired" verify --store one.journal
does "took in tablet" pair --store one.journal --take-in "$(name_of three.journal)"
shows one.journal "Stranger Hill" || fail "taken in, and not shown"
does "kept out tablet" pair --store one.journal --keep-out "$(name_of three.journal)" --from 1
if shows one.journal "Stranger Hill"; then fail "kept out, and still shown"; fi
does "kept out" verify --store one.journal

# A signature that is not of its key: named in one line, nothing taken, exit 1.
mkdir forged
cp -r from_one/* forged/
(
  cd forged/* || exit 1
  sed -i '2s/.$/0/;2s/00$/11/' data/signatures.txt
  sha256sum data/* >manifest-sha256.txt
  sha256sum bag-info.txt bagit.txt manifest-sha256.txt >tagmanifest-sha256.txt
)
"$duskwalk" merge forged --store four.journal >"$work/out" 2>"$work/err"
grep -q "a signature of tablet" "$work/out" "$work/err" || fail "a forged signature is not named"
if [ -e four.journal ] && "$duskwalk" due --store four.journal --on 2026-08-14 | grep -q "Reed Corner"; then
  fail "entries with a forged signature count"
fi
# A sealed backup opens with its passphrase alone, and shows nothing without.
echo "seven green ladders" >phrase
echo "eight green ladders" >other_phrase
does "read back and whole" backup sealed.copy --seal phrase --store one.journal
if grep -q "Reed Corner" sealed.copy; then fail "the sealed backup shows a yard"; fi
[ "$(stat -c %a sealed.copy)" = 600 ] || fail "the sealed backup may be read by others"
fails 2 "is sealed: name the file with its passphrase" restore sealed.copy --store again.journal
fails 2 "with another passphrase" restore sealed.copy --seal other_phrase --store again.journal
does "goes on under a new tablet id" restore sealed.copy --seal phrase --store again.journal
shows again.journal "Reed Corner" || fail "the sealed backup did not come back"
if ls ./*.to-seal* ./*.unsealed* 2>/dev/null; then fail "a plain copy was left"; fi
exit $bad
