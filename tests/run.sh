#!/usr/bin/env bash
# Everything a change must pass, on a fresh Debian 12: installs, builds with warnings as errors and
# runs every test.
#   sanitize: clang++ with address and undefined-behaviour sanitizers; all tests but the demo season
#             and what reads it.
#   release:  g++ as shipped; the program, and the tests that another compiler or optimisation could
#             tell apart (the engine, replay to the same state hash, the commands, the demo's evening
#             and season, its JSON against the schemas), and its package: checked, and installed on a fresh system.
#   quick:    clang++ without sanitizers, all tests but those that are slow by nature (label long:
#             crash loops, outside readers, whole evenings): for the minutes between two commits.
# Usage: tests/run.sh [release|sanitize|quick]   (none: release and sanitize)
set -eu
cd "$(dirname "$0")/.."
packaging/install-build-deps.sh test
cache=$(packaging/compiler_cache.sh)

# What a compiler says is shown when it fails.
build() {  # PRESET TARGETS
  echo "== build/$1: build"
  # shellcheck disable=SC2086
  cmake --preset "$1" $cache >/dev/null
  # shellcheck disable=SC2086
  if ! cmake --build "build/$1" --target $2 -- --quiet >"build/$1/said" 2>&1; then
    cat "build/$1/said"
    exit 1
  fi
}

check() {  # PRESET CTEST_OPTIONS...
  local folder=build/$1
  shift
  echo "== $folder: test"
  ctest --test-dir "$folder" --parallel "$(nproc)" --output-on-failure --no-tests=error "$@"
}

build_sanitize() { build sanitize all; }

check_sanitize() {
  export LSAN_OPTIONS=suppressions=$PWD/tests/leaks_of_others.txt:print_suppressions=0
  check sanitize -E '^(demo_season|schemas)$'
}

build_release() { build release "duskwalk package_files engine_tests"; }

check_release() {
  check release -R '^(engine_tests|commands|demo_evening|demo_season|schemas|package.*)$'
}

check_quick() {
  build dev all
  check dev -LE long
}

# The tests of the release wait for disks and processes: the other build goes on meanwhile.
both() {
  build_release
  check_release >build/release/tested 2>&1 &
  local tests=$! passed=yes
  build_sanitize
  wait "$tests" || passed=no
  cat build/release/tested
  [ $passed = yes ] || exit 1
  check_sanitize
}

case "${1:-all}" in
  release)
    build_release
    check_release
    ;;
  sanitize)
    build_sanitize
    check_sanitize
    ;;
  quick) check_quick ;;
  all) both ;;
  *)
    echo "usage: tests/run.sh [release|sanitize|quick]" >&2
    exit 2
    ;;
esac
