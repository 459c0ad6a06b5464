#!/usr/bin/env bash
# What a build from nothing costs, in seconds of processor: in all, and the twenty dearest sources;
# beside the compile of one small fixed source in the same run, so that machines can be compared.
# Usage: tests/bench/build_cost.sh [PRESET] [TARGET]   (demo duskwalk)
set -eu
cd "$(dirname "$0")/../.."
preset=${1:-demo} target=${2:-duskwalk}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

cat >"$work/fixed.cpp" <<'SOURCE'
#include <algorithm>
#include <map>
#include <string>
#include <variant>
#include <vector>
int main() {
  std::map<std::string, std::vector<std::variant<int, std::string>>> words;
  words["one"].push_back(1);
  return static_cast<int>(std::count_if(words.begin(), words.end(), [](const auto& w) { return w.second.empty(); }));
}
SOURCE
cat >"$work/timed" <<TIMED
#!/bin/bash
# Compiles, and notes the seconds of processor that it took.
TIMEFORMAT='%U %S'
exec 3>&2
took=\$( { time "\$@" 1>&3 2>&3; } 2>&1 ) || exit 1
for last in "\$@"; do :; done
echo "\$took \$last" >>"$work/costs"
TIMED
chmod +x "$work/timed"

cmake --preset "$preset" -B "$work/build" -DCMAKE_CXX_COMPILER_LAUNCHER="$work/timed" >/dev/null
cmake --build "$work/build" --target "$target" -- --quiet >/dev/null
compiler=$(sed -n 's/^CMAKE_CXX_COMPILER:[^=]*=//p' "$work/build/CMakeCache.txt")
TIMEFORMAT='%U'
fixed=$( { time "$compiler" -std=c++20 -O1 -c "$work/fixed.cpp" -o "$work/fixed.o"; } 2>&1)
awk -v fixed="$fixed" '{ s += $1 + $2 } END { printf "all: %.0f s of processor in %d compiles; the fixed source: %.2f s; ratio %.0f\n", s, NR, fixed, s / fixed }' "$work/costs"
awk '{ printf "%7.1f s  %s\n", $1 + $2, $3 }' "$work/costs" | sort -rn | head -20 | sed "s#$work/build/##; s#$PWD/##"
