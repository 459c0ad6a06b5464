#!/bin/sh
# Prints the CMake option that makes a build use the compiler cache, where it is installed.
if command -v ccache >/dev/null; then
  echo "-DCMAKE_CXX_COMPILER_LAUNCHER=ccache"
fi
