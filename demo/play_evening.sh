#!/usr/bin/env bash
# Plays the demo evening into FOLDER and prints what happened. What an earlier evening left there is
# cleared first; a folder that holds anything else is refused.
# Usage: play_evening.sh DUSKWALK FOLDER
set -eu -o pipefail
duskwalk=$(realpath "$1")
demo=$(cd "$(dirname "$0")" && pwd)
mkdir -p "$2"
out=$(cd "$2" && pwd)
mark=$out/.duskwalk-demo
if [ ! -e "$mark" ] && [ -n "$(ls -A "$out")" ]; then
  echo "$out: holds files that are not of a demo evening; name a new or empty folder" >&2
  exit 2
fi
echo "This folder is cleared whenever the demo evening is played into it." >"$mark"
find "$out" -mindepth 1 ! -path "$mark" -delete
export TZ=America/Chicago DUSKWALK_STORE=$out/evening.journal

echo "-- duskwalk play evening.play, which reads the three spreadsheets first"
(cd "$out" && "$duskwalk" play "$demo/evening.play" --out "$out/pictures") |
  grep -v -e '^column' -e '^row [0-9]*: added' -e '^row [0-9]*: as before'
echo "-- duskwalk verify"
"$duskwalk" verify
bundle=$(find "$out/stick" -mindepth 1 -maxdepth 1 -type d | sort | tail -1)
"$duskwalk" verify "$bundle"
"$duskwalk" register --out "$out/register.csv"
"$duskwalk" register --out "$out/register.html"
echo "-- what is still due"
"$duskwalk" due --on 2026-08-15
echo "-- the evening, as the stick has it"
cut -d, -f2- "$bundle/data/day.csv" | tail -n +2 | tail -60
echo "pictures: $out/pictures   bundle: $bundle"
