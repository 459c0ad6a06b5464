#!/usr/bin/env bash
# Shows Duskwalk on an invented outfit. With a display: opens the screens on a store of your own in
# demo/out/try/, which is kept. Without: plays the recorded evening through the same screens, leaves
# pictures and the bundle under demo/out/evening/, and prints what happened.
set -eu
cd "$(dirname "$0")/.."
packaging/install-build-deps.sh run

build=build/demo
echo "building the program (some minutes, once)"
# shellcheck disable=SC2046
cmake --preset demo $(packaging/compiler_cache.sh) >/dev/null
cmake --build $build --target duskwalk
duskwalk=$PWD/$build/ui/duskwalk
out=$PWD/demo/out
export TZ=America/Chicago

if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
  mkdir -p "$out/try"
  export DUSKWALK_STORE=$out/try/try.journal
  for sheet in yards colonies counts; do "$duskwalk" read "demo/$sheet.csv"; done
  echo "the screens open; this store is yours to try: $DUSKWALK_STORE"
  exec "$duskwalk"
fi

demo/play_evening.sh "$duskwalk" "$out/evening"
