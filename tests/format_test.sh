#!/usr/bin/env bash
# Every source is as clang-format leaves it; 77: that is not installed.
set -eu
cd "$(dirname "$0")/.."
command -v clang-format >/dev/null || exit 77
find engine storage ui tests \( -name '*.cpp' -o -name '*.h' \) -print0 |
  xargs -0 -P 2 -n 40 clang-format --dry-run --Werror
