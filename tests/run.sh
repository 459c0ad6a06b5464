#!/usr/bin/env bash
# Everything a change must pass, on a fresh Debian 12: installs, builds with warnings as errors, runs
# every test in a release build and in a debug build with address and undefined-behaviour
# sanitizers, and plays the demo evening in both.
# Usage: tests/run.sh [release|sanitize]   (one of the two builds only)
set -eu
cd "$(dirname "$0")/.."
packaging/install-build-deps.sh test

jobs=$(nproc)
launcher=""
command -v ccache >/dev/null && launcher=-DCMAKE_CXX_COMPILER_LAUNCHER=ccache

build_and_test() {  # NAME TYPE SANITIZE
  local folder=build/$1
  echo "== $1: configure and build"
  cmake -S . -B "$folder" -G Ninja -DCMAKE_BUILD_TYPE="$2" -DDUSKWALK_SANITIZE="$3" \
    $launcher >/dev/null
  cmake --build "$folder" --parallel "$jobs" -- --quiet
  echo "== $1: test"
  ctest --test-dir "$folder" --parallel "$jobs" --output-on-failure --no-tests=error
}

case "${1:-all}" in
  release) build_and_test release Release OFF ;;
  sanitize) build_and_test sanitize Debug ON ;;
  all)
    build_and_test release Release OFF
    build_and_test sanitize Debug ON
    ;;
  *) echo "usage: tests/run.sh [release|sanitize]" >&2; exit 2 ;;
esac
