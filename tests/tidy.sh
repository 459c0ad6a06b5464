#!/usr/bin/env bash
# Puts rooms through clang-tidy by .clang-tidy; every finding is an error. A room is read as one
# source, as it is compiled (DUSKWALK_UNITY).
# Usage: tests/tidy.sh [ROOM...]   (engine/farm storage/text ...; none: all of engine and storage)
set -eu
cd "$(dirname "$0")/.."
packaging/install-build-deps.sh test
cmake --preset dev -DCMAKE_EXPORT_COMPILE_COMMANDS=ON >/dev/null
[ $# -gt 0 ] || set -- $(sed -n 's/^\(\(engine\|storage\)\/[a-z]*\):.*/\1/p' tests/rooms.txt)
bad=0
for room in "$@"; do
  part=${room%%/*} name=$(printf '%s' "${room#*/}" | tr / _)
  source=build/dev/$part/CMakeFiles/$part.dir/Unity/unity_${name}_cxx.cxx
  [ -f "$source" ] || { echo "$room: no such room ($source)" >&2; exit 2; }
  said=$(clang-tidy --quiet -p build/dev "$source" 2>/dev/null) && continue
  printf '%s\n' "$said"
  echo "$room: findings" >&2
  bad=1
done
exit $bad
