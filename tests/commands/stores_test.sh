#!/usr/bin/env bash
# What the commands do with a store that is damaged, is not there, is no store, or is named in
# another way. A damaged one gives no partial answer: exit 1 with its line, nothing else.
# Usage: stores_test.sh DUSKWALK DEMO_FOLDER
set -u
duskwalk=$1
demo=$2
# shellcheck source=tests/commands/calls.sh
. "$(dirname "$0")/calls.sh"
unset DUSKWALK_STORE
export XDG_DATA_HOME=$work/data

# ---- where the store is named ----
for sheet in yards colonies; do
  "$duskwalk" read "$demo/$sheet.csv" --store "$work/a/farm.journal" >/dev/null || fail "read $sheet"
done
does "North Orchard: never counted" due --store "$work/a/farm.journal"
does "North Orchard: never counted" --store "$work/a/farm.journal" due
DUSKWALK_STORE=$work/a/farm.journal does "North Orchard: never counted" due
[ ! -e "$work/data" ] || fail "a store that was named made another one"
fails 2 "$work/data/duskwalk/duskwalk.journal: there is no store" due
fails 2 "there is no store" --store "$work/none.journal" due
fails 2 "there is no store" bundle "$work" --store "$work/none.journal"
fails 2 "there is no store" register --out "$work/x.csv" --store "$work/none.journal"
fails 2 "there is no store" verify --store "$work/none.journal"
[ ! -e "$work/none.journal" ] && [ ! -e "$work/data" ] || fail "asking made a store"

# ---- a file that is no store ----
head -c 4096 /dev/urandom >"$work/none.journal"
cp "$work/none.journal" "$work/copy"
for call in due verify "read $demo/yards.csv" "bundle $work" "register --out $work/x.csv"; do
  # shellcheck disable=SC2086
  fails 1 "the store is damaged or no Duskwalk store" $call --store "$work/none.journal"
done
cmp -s "$work/none.journal" "$work/copy" || fail "a file that is no store was written to"

# ---- a store of a later version ----
cp -r "$work/a" "$work/later"
/usr/bin/python3 - "$work/later/farm.journal" <<'P' || fail "no later version could be made"
import sqlite3, sys
db = sqlite3.connect(sys.argv[1])
format = int(db.execute("SELECT value FROM meta WHERE key = 'format'").fetchone()[0]) + 1
db.execute("PRAGMA journal_mode = DELETE")
db.execute(f"PRAGMA user_version = {format}")
db.execute("UPDATE meta SET value = ? WHERE key = 'format'", (str(format),))
db.commit()
P
sums() { (cd "$1" && sha256sum -- *); }
before=$(sums "$work/later")
for call in due verify "read $demo/counts.csv" "bundle $work" "register --out $work/x.csv" \
  "exchange $work"; do
  # shellcheck disable=SC2086
  fails 1 "it was written by a newer version of this program" $call --store "$work/later/farm.journal"
done
[ "$before" = "$(sums "$work/later")" ] || fail "a store of a later version was changed"
fails 1 "newer version" restore "$work/later/farm.journal" --store "$work/new.journal"
[ ! -e "$work/new.journal" ] || fail "a later version gave a file"

# looks NAME WORDS DUE: what can be read of a locked store is shown, copied and gone on with
looks() {
  local store=$work/$1/farm.journal before
  before=$(sums "$work/$1")
  does "$3" due --readable --store "$store"
  [ "$(wc -l <"$work/err")" = 1 ] || fail "$1: the line about the store is missing"
  grep -qF -- "$2" "$work/err" || fail "$1: no \"$2\" in: $(cat "$work/err")"
  does "rows" register --readable --out "$work/$1.csv" --store "$store"
  does "copied as it is" backup "$work/$1.copy" --store "$store"
  cmp -s "$store" "$work/$1.copy" || fail "$1: the copy is another file"
  fails 2 "a file of that name exists" backup "$work/$1.copy" --store "$store"
  [ "$before" = "$(sums "$work/$1")" ] || fail "$1: looking at it changed it"
}
# goes_on NAME: the store goes on under its old name, and what was locked is kept
goes_on() {
  local store=$work/$1/farm.journal sum
  sum=$(sha256sum <"$store")
  does "goes on with them under a new tablet id" restore --go-on --store "$store"
  [ "$(sha256sum <"$(echo "$store".damaged-????-??-??)")" = "$sum" ] || fail "$1: not kept"
  printf 'Yard\nNew Corner\n' >"$work/new.csv"
  does "" read "$work/new.csv" --store "$store"
  does "State hash" verify --store "$store"
  fails 2 "nothing to mend" restore --go-on --store "$store"
}
fails 2 "name the backup, or give --go-on" restore --store "$work/new.journal"
fails 2 "there is no store" restore --go-on --store "$work/new.journal"
looks later "it was written by a newer version of this program" "North Orchard: never counted"
goes_on later
mkdir "$work/none"
mv "$work/none.journal" "$work/none/farm.journal"
goes_on none

# ---- a store with a byte that went bad ----
/usr/bin/python3 - "$work/a" <<'P' || fail "no byte could be broken"
import glob, sys
hit = 0
for name in glob.glob(sys.argv[1] + "/farm.journal*"):
    data = open(name, "rb").read()
    if b"Quarry Lane" in data:
        hit += data.count(b"Quarry Lane")
        open(name, "wb").write(data.replace(b"Quarry Lane", b"Quarry Lome"))
sys.exit(0 if hit else 1)
P
before=$(sums "$work/a")
mkdir "$work/stick"
for call in due "due --json" verify "read $demo/counts.csv" "bundle $work/stick" \
  "register --out $work/x.csv" "register --out $work/x.html"; do
  # shellcheck disable=SC2086
  fails 1 "is damaged" $call --store "$work/a/farm.journal"
done
[ "$before" = "$(sums "$work/a")" ] || fail "a damaged store was changed"
[ -z "$(ls -A "$work/stick")" ] || fail "a damaged store gave a bundle"
[ ! -e "$work/x.csv" ] && [ ! -e "$work/x.html" ] || fail "a damaged store gave a register"
looks a "is damaged" "Nothing is due"
goes_on a

[ $bad = 0 ] && echo "every store got the answer it should"
exit $bad
