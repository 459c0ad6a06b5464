#!/usr/bin/env bash
# Takes into tests/fuzz/corpus/ the fewest inputs of a run that reach all that it reached.
# Usage: tests/fuzz/keep.sh [TARGET...]   (after tests/fuzz/run.sh)
set -eu
cd "$(dirname "$0")/../.."
targets=$*
[ -n "$targets" ] || targets=$(ls tests/fuzz/corpus)
most=60       # files a target
largest=4096  # bytes a file

for target in $targets; do
  kept=tests/fuzz/corpus/$target merged=build/fuzz/merged/$target
  rm -rf "$merged"
  mkdir -p "$merged"
  "build/fuzz/tests/fuzz/fuzz_$target" -merge=1 -max_len=$largest "$merged" "$kept" \
    "build/fuzz/corpus/$target" >/dev/null 2>&1
  # Smallest first, so that the number bounds the bytes too; files with a name were put there by hand.
  room=$((most - $(find "$kept" -name '*-*' | wc -l)))
  find "$kept" -type f ! -name '*-*' -delete
  find "$merged" -type f -printf '%s %p\n' | sort -n | head -n "$room" | cut -d' ' -f2- |
    xargs -r cp -t "$kept"
  echo "$target: $(find "$kept" -type f | wc -l) files, $(du -sb "$kept" | cut -f1) bytes"
done
