#!/usr/bin/env bash
# Plays the demo evening into FOLDER, which is emptied first, and prints what happened.
# Usage: play_evening.sh DUSKWALK FOLDER
set -eu
duskwalk=$1
demo=$(cd "$(dirname "$0")" && pwd)
mkdir -p "$2"
out=$(cd "$2" && pwd)
find "$out" -mindepth 1 -delete
export TZ=America/Chicago DUSKWALK_STORE=$out/evening.journal

for sheet in yards colonies counts; do
  echo "-- duskwalk read $sheet.csv"
  "$duskwalk" read "$demo/$sheet.csv" | tail -1
done
echo "-- duskwalk play evening.play"
(cd "$out" && "$duskwalk" play "$demo/evening.play" --out "$out/pictures")
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
