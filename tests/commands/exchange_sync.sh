#!/usr/bin/env bash
# Two stores on two "machines" whose exchange folders an outside file-sync engine keeps alike: each
# ends with the other's entries and both with the same state. The engine is Debian's unison over a
# loopback socket, else rsync through its own daemon on 127.0.0.1; 77: neither is installed.
# Usage: exchange_sync.sh DUSKWALK DEMO_FOLDER
set -u
duskwalk=$1
demo=$2
work=$(mktemp -d) || exit 1
daemon=
trap '[ -n "$daemon" ] && kill "$daemon" 2>/dev/null; rm -rf "$work"' EXIT
bad=0
fail() { echo "FAILED: $*"; bad=1; }
unset DUSKWALK_STORE
mkdir -p "$work/a/folder" "$work/b/folder"

wait_for_port() {
  for _ in $(seq 100); do
    (exec 3<>"/dev/tcp/127.0.0.1/$1") 2>/dev/null && return 0
    sleep 0.1
  done
  echo "the engine's daemon did not come up"
  exit 77
}

port=$((20000 + $$ % 20000))
if command -v unison >/dev/null; then
  engine=unison
  export UNISON=$work/unison-state HOME=$work
  unison -socket $port -host 127.0.0.1 >"$work/daemon" 2>&1 &
  daemon=$!
  wait_for_port $port
  sync_once() {
    unison -batch -auto -silent "$work/a/folder" "socket://127.0.0.1:$port/$work/b/folder" \
      >>"$work/log" 2>&1 || { cat "$work/log"; fail "unison"; }
  }
elif command -v rsync >/dev/null; then
  engine=rsync
  printf 'use chroot = no\nuid = %s\ngid = %s\n[folder]\npath = %s\nread only = no\n' \
    "$(id -u)" "$(id -g)" "$work/b/folder" >"$work/rsyncd.conf"
  rsync --daemon --no-detach --address=127.0.0.1 --port=$port --config="$work/rsyncd.conf" &
  daemon=$!
  wait_for_port $port
  sync_once() {
    rsync -r --times "$work/a/folder/" "rsync://127.0.0.1:$port/folder/" || fail "rsync out"
    rsync -r --times "rsync://127.0.0.1:$port/folder/" "$work/a/folder/" || fail "rsync in"
  }
else
  echo "neither unison nor rsync is installed: nothing to move files with"
  exit 77
fi
echo "moved by $engine"

on() { # store's name, then the command
  local who=$1
  shift
  "$duskwalk" "$@" --store "$work/$who/farm.journal"
}
for sheet in yards colonies; do on a read "$demo/$sheet.csv" >/dev/null || fail "read $sheet"; done
pass() { on "$1" exchange "$work/$1/folder" >"$work/$1/said" 2>&1 || { cat "$work/$1/said"; fail "pass of $1"; }; }

pass a
sync_once
pass b
grep -q "1 taken in" "$work/b/said" || fail "b took nothing: $(cat "$work/b/said")"
on b read "$demo/counts.csv" >/dev/null || fail "counts at b"
pass b
sync_once
pass a
state() { on "$1" verify | grep "State hash"; }
[ "$(state a)" = "$(state b)" ] || fail "the stores differ: $(state a), $(state b)"

# A bundle whose files are still on the way is left until they are there.
on a read "$demo/season_yards.csv" >/dev/null || fail "more at a"
before=$(ls "$work/a/folder")
pass a
new=$(ls "$work/a/folder" | grep -vxF "$before" | head -n 1)
mkdir -p "$work/b/folder/$new/data"
cp "$work/a/folder/$new/bagit.txt" "$work/a/folder/$new/bag-info.txt" "$work/b/folder/$new/"
head -c 100 "$work/a/folder/$new/data/events.jsonl" >"$work/b/folder/$new/data/events.jsonl"
pass b
grep -q "Not whole yet: $new" "$work/b/said" || fail "a half bundle was not named"
rm -r "${work:?}/b/folder/$new"
sync_once
pass b
[ "$(state a)" = "$(state b)" ] || fail "the stores differ after the half bundle"
pass a
pass b
grep -q "0 taken in, 0 not whole yet, 0 put out" "$work/b/said" || fail "no rest at the end"

[ $bad = 0 ] && echo "both stores are in one state"
exit $bad
