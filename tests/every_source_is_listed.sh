#!/usr/bin/env bash
# Every .cpp below engine, storage, ui and tests stands in a CMakeLists.txt of its folder or above,
# so that no source silently stops being built or run.
set -u
cd "$(dirname "$0")/.."
missing=0
while IFS= read -r source; do
  name=$(basename "$source")
  folder=$(dirname "$source")
  found=no
  while :; do
    if [ -f "$folder/CMakeLists.txt" ] && grep -qE "(^|[ /(])$name( |\)|$)" "$folder/CMakeLists.txt"; then
      found=yes
      break
    fi
    [ "$folder" = . ] && break
    folder=$(dirname "$folder")
  done
  if [ $found = no ]; then
    echo "listed nowhere: $source"
    missing=1
  fi
done < <(find engine storage ui tests -name '*.cpp' | sort)
exit $missing
