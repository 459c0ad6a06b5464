#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Makes the Debian package of the program, and prints its path. Two calls on the same sources give the
# same bytes, wherever they lie and whenever they are made.
# Usage: packaging/package.sh [BUILD_FOLDER]   (one that is configured as a release; none: it makes
#        build/package)
set -eu
cd "$(dirname "$0")/.."
build=${1:-build/package}

if [ $# = 0 ]; then
  packaging/install-build-deps.sh run
  # shellcheck disable=SC2046
  cmake --preset package $(packaging/compiler_cache.sh) >/dev/null
fi
cmake --build "$build" --target duskwalk package_files >"$build/packed" 2>&1 &&
  (cd "$build" && cpack -G DEB) >>"$build/packed" 2>&1 || {
  cat "$build/packed" >&2
  exit 1
}
sed -n 's/^CPack: - package: \(.*\) generated.$/\1/p' "$build/packed"
