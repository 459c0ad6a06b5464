#!/usr/bin/env bash
# Builds every fuzz target with clang++ and runs each for some time on its corpus.
# Usage: tests/fuzz/run.sh [SECONDS] [TARGET...]   (60 seconds each; all targets)
# What fails is kept in build/fuzz/found/TARGET/ and the run goes on with the next target; exit 1.
# New inputs stay in build/fuzz/corpus/TARGET/; tests/fuzz/keep.sh takes the few that matter into
# tests/fuzz/corpus/.
set -eu
cd "$(dirname "$0")/../.."
seconds=${1:-60}
[ $# -eq 0 ] || shift
targets=$*
[ -n "$targets" ] || targets=$(ls tests/fuzz/corpus)

# shellcheck disable=SC2046
cmake -S . -B build/fuzz -G Ninja $(packaging/compiler_cache.sh) -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_C_COMPILER=clang \
  -DCMAKE_BUILD_TYPE=Debug "-DCMAKE_CXX_FLAGS_DEBUG=-g1 -O1" -DDUSKWALK_FUZZ=ON \
  -DCMAKE_EXE_LINKER_FLAGS=-fuse-ld=lld >/dev/null
# shellcheck disable=SC2046
cmake --build build/fuzz -- --quiet $(printf 'fuzz_%s ' $targets)

export LSAN_OPTIONS=suppressions=$PWD/tests/leaks_of_others.txt:print_suppressions=0
failed=""
for target in $targets; do
  grown=build/fuzz/corpus/$target found=build/fuzz/found/$target
  mkdir -p "$grown" "$found"
  echo "== $target"
  if ! "build/fuzz/tests/fuzz/fuzz_$target" -max_total_time="$seconds" -timeout=20 -rss_limit_mb=2048 \
    -max_len=16384 -print_final_stats=1 -artifact_prefix="$found/" "$grown" \
    "tests/fuzz/corpus/$target" >"build/fuzz/said_$target" 2>&1; then
    tail -40 "build/fuzz/said_$target"
    failed="$failed $target"
  fi
  grep -E '^stat::(number_of_executed_units|average_exec_per_sec|peak_rss_mb)' \
    "build/fuzz/said_$target" || true
done
[ -z "$failed" ] || { echo "failed:$failed"; exit 1; }
