#!/usr/bin/env bash
# The engine has no clock, file, environment, randomness, thread, database or window of its own.
# Usage: engine_is_pure.sh LIBENGINE.a
set -u
lib=$1
bad='\b(clock_gettime|gettimeofday|time|localtime(_r)?|gmtime(_r)?|mktime|fopen(64)?|open(64)?|read|write|getenv|rand|srand|random|getrandom|pthread_create|sqlite3_\w+|SDL_\w+)$|std::(chrono::_V2::(system|steady)_clock::now|random_device|basic_[io]?f(ile)?stream|basic_fstream|filesystem|thread)|ImGui::'
found=$(nm --undefined-only --demangle "$lib" 2>/dev/null | sed -n 's/^ *U //p' | sed 's/@.*//' | sort -u | grep -E "$bad")
if [ -n "$found" ]; then
  printf 'the engine reaches outside:\n%s\n' "$found"
  exit 1
fi
[ -n "$(nm --undefined-only "$lib" 2>/dev/null)" ] || { echo "nothing to read in $lib"; exit 1; }
echo "the engine is pure"
