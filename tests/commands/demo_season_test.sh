#!/usr/bin/env bash
# Plays the demo's season: counts, plan, a lost evening, walks, the count after. It fails at the
# first step that does not hold. The store it leaves in FOLDER is read by other tests.
# Usage: demo_season_test.sh DUSKWALK DEMO_FOLDER FOLDER
set -eu
rm -rf "$3"
mkdir -p "$3"
cd "$3"
exec "$1" play "$2/season.play" --out "$3/pictures" --store "$3/season.journal"
