#!/usr/bin/env bash
# What waiting costs: the real program in a real window (Xvfb) with a countdown running, and beside
# it with nothing running. Prints processor seconds and wake-ups a minute.
# Usage: idle.sh DUSKWALK DEMO_FOLDER [SECONDS]; needs xvfb
set -eu
duskwalk=$(realpath "$1")
demo=$(realpath "$2")
seconds=${3:-60}
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
Xvfb :87 -screen 0 1280x800x24 >/dev/null 2>&1 &
server=$!
trap 'kill $server 2>/dev/null; rm -rf "$work"' EXIT
sleep 1

ticks_of() {  # user and system, all threads
  awk '{print $14 + $15}' "/proc/$1/stat"
}
switches_of() { awk '/^voluntary/ {sum += $2} END {print sum}' /proc/"$1"/task/*/status; }

measure() {  # NAME STORE
  DISPLAY=:87 SDL_AUDIODRIVER=dummy "$duskwalk" --store "$2" &
  local program=$!
  sleep 3
  local ticks switches
  ticks=$(ticks_of $program)
  switches=$(switches_of $program)
  sleep "$seconds"
  ticks=$(($(ticks_of $program) - ticks))
  switches=$(($(switches_of $program) - switches))
  awk -v t=$ticks -v hz="$(getconf CLK_TCK)" -v s="$seconds" -v name="$1" -v w=$switches 'BEGIN {
    printf "%s: %.2f CPU-s a minute, %.0f wake-ups a minute\n", name, t / hz * 60 / s, w * 60 / s }'
  kill $program
  wait $program 2>/dev/null || true
}

for sheet in yards colonies; do
  "$duskwalk" read "$demo/$sheet.csv" --store "$work/quiet" >/dev/null
done
cp "$work/quiet" "$work/running"
{
  echo "at $(date +%Y-%m-%dT%H:%M:%S%:z)"
  cat "$here/running_dwell.play"
} >"$work/start.play"
"$duskwalk" play "$work/start.play" --out "$work/out" --store "$work/running" >/dev/null
measure "nothing running" "$work/quiet"
measure "a countdown running" "$work/running"
