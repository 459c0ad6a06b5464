#!/usr/bin/env bash
# Looks for races between the screens and what runs beside them: the app's tests under clang's
# thread sanitizer. A run by name, since it builds everything anew.
# Usage: tests/races.sh [DOCTEST_OPTIONS...]
set -eu
cd "$(dirname "$0")/.."
cmake -S . -B build/races -G Ninja -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_COMPILER=clang++ \
  -DCMAKE_C_COMPILER=clang -DDUSKWALK_UNITY=ON -DCMAKE_EXE_LINKER_FLAGS=-fuse-ld=lld \
  "-DCMAKE_CXX_FLAGS_DEBUG=-g1 -O1 -fsanitize=thread" \
  ${RACES_LAUNCHER:+-DCMAKE_CXX_COMPILER_LAUNCHER=$RACES_LAUNCHER} >/dev/null
cmake --build build/races --target app_tests
# What is left behind on purpose when a file system stalls is no leak of a thread.
TSAN_OPTIONS="halt_on_error=1 report_thread_leaks=0" build/races/tests/ui/app_tests "$@"
