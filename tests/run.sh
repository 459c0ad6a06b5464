#!/usr/bin/env bash
# Everything a change must pass, on a fresh Debian 12: installs, builds with warnings as errors and
# runs every test.
#   sanitize: clang++ with address and undefined-behaviour sanitizers; all tests but the demo season.
#   release:  g++ as shipped; the program, and the tests that another compiler or optimisation could
#             tell apart (the engine, replay to the same state hash, the commands, the demo's evening
#             and season).
# Usage: tests/run.sh [release|sanitize]   (only one of the two)
set -eu
cd "$(dirname "$0")/.."
packaging/install-build-deps.sh test

# Precompiled headers halve a build from nothing; a compiler cache does better without them.
faster=-DDUSKWALK_PRECOMPILE=ON
command -v ccache >/dev/null && faster=-DCMAKE_CXX_COMPILER_LAUNCHER=ccache

# What a compiler says is shown when it fails, or when it warns of anything but what the library's
# char_traits.h silences for itself (see read_once in CMakeLists.txt).
build() {  # NAME TARGETS CMAKE_OPTIONS...
  local folder=build/$1 targets=$2
  shift 2
  echo "== $folder: build"
  cmake -S . -B "$folder" -G Ninja $faster "$@" >/dev/null
  # shellcheck disable=SC2086
  if ! cmake --build "$folder" --target $targets -- --quiet >"$folder/said" 2>&1 ||
    grep 'warning: .*\[-W' "$folder/said" | grep -v '/bits/char_traits\.h:'; then
    cat "$folder/said"
    exit 1
  fi
}

check() {  # NAME CTEST_OPTIONS...
  local folder=build/$1
  shift
  echo "== $folder: test"
  ctest --test-dir "$folder" --parallel "$(nproc)" --output-on-failure --no-tests=error "$@"
}

build_sanitize() {
  build sanitize all -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_C_COMPILER=clang \
    -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS_DEBUG=-g1 -DDUSKWALK_SANITIZE=ON \
    -DCMAKE_EXE_LINKER_FLAGS=-fuse-ld=lld
}

check_sanitize() {
  export LSAN_OPTIONS=suppressions=$PWD/tests/leaks_of_others.txt:print_suppressions=0
  check sanitize -E '^demo_season$'
}

build_release() {
  build release "duskwalk engine_tests" -DCMAKE_CXX_COMPILER=g++ \
    -DCMAKE_C_COMPILER=gcc -DCMAKE_BUILD_TYPE=Release
}

check_release() {
  check release -R '^(engine_tests|commands|demo_evening|demo_season)$'
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
  all) both ;;
  *)
    echo "usage: tests/run.sh [release|sanitize]" >&2
    exit 2
    ;;
esac
