# SPDX-License-Identifier: MIT
# Read by cpack: all times in the package are those of its version.
if(NOT DEFINED ENV{SOURCE_DATE_EPOCH})
  set(ENV{SOURCE_DATE_EPOCH} ${CPACK_DUSKWALK_EPOCH})
endif()
