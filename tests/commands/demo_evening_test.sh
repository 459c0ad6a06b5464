#!/usr/bin/env bash
# Plays the whole demo evening and holds its bundle, register, come-back list and screens to what
# was derived by hand from the story (demo_evening.expected.json). The evening stays in FOLDER, where
# other tests read it.
# Usage: demo_evening_test.sh DUSKWALK DEMO_FOLDER FOLDER
set -u
duskwalk=$1
demo=$2
out=$3
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
bad=0

if ! "$demo/play_evening.sh" "$duskwalk" "$out" >"$work/said" 2>&1; then
  cat "$work/said"
  echo "FAILED: the evening does not play to its end"
  exit 1
fi
bundle=$(find "$out/stick" -mindepth 1 -maxdepth 1 -type d)
(cd "$bundle" && sha256sum --quiet --strict -c manifest-sha256.txt) || bad=1
(cd "$bundle" && sha256sum --quiet --strict -c tagmanifest-sha256.txt) || bad=1

export DUSKWALK_STORE=$out/evening.journal TZ=America/Chicago
"$duskwalk" due --on 2026-08-15 --json >"$work/due.json" || bad=1
/usr/bin/python3 "$here/demo_evening_check.py" "$here/demo_evening.expected.json" "$out" \
  "$work/due.json" || bad=1
/usr/bin/python3 "$here/screens_check.py" "$out/pictures" || bad=1
exit $bad
