# SPDX-License-Identifier: MIT
# Where everything goes when the program is installed, and how CPack makes a Debian package of it.
include(GNUInstallDirs)
set(here ${PROJECT_SOURCE_DIR}/packaging)
set(made ${PROJECT_BINARY_DIR}/packaging)
file(MAKE_DIRECTORY ${made})

# The day of the newest entry of the changelog, unless whoever packs says another: two builds of one
# version give the same bytes.
execute_process(COMMAND sh -c "date --utc --date=\"$(sed -n 's/^ -- .*>  //p' changelog | head -n 1)\" +%s"
                WORKING_DIRECTORY ${here} OUTPUT_VARIABLE changelog_epoch
                OUTPUT_STRIP_TRAILING_WHITESPACE COMMAND_ERROR_IS_FATAL ANY)
set(DUSKWALK_EPOCH ${changelog_epoch} CACHE STRING "Seconds since 1970 that packed files carry")

# Units and rules; relative, it lies below the prefix. systemd also looks below /usr/local.
set(DUSKWALK_SYSTEM_LIB lib CACHE STRING "The folder that has systemd/ and udev/")

find_program(DPKG dpkg)
set(deb_architecture amd64)
if(CMAKE_LIBRARY_ARCHITECTURE STREQUAL "aarch64-linux-gnu")
  set(deb_architecture arm64)
elseif(DPKG AND NOT CMAKE_CROSSCOMPILING)
  execute_process(COMMAND ${DPKG} --print-architecture OUTPUT_VARIABLE deb_architecture
                  OUTPUT_STRIP_TRAILING_WHITESPACE)
endif()

# Man page and completion are what the parser knows.
add_custom_command(OUTPUT ${made}/duskwalk.1.gz COMMAND duskwalk help --man > ${made}/duskwalk.1
                   COMMAND gzip -9nf ${made}/duskwalk.1 DEPENDS duskwalk VERBATIM)
foreach(shell bash zsh fish)
  add_custom_command(OUTPUT ${made}/duskwalk.${shell}
                     COMMAND duskwalk help --completion ${shell} > ${made}/duskwalk.${shell}
                     DEPENDS duskwalk VERBATIM)
endforeach()
add_custom_command(OUTPUT ${made}/changelog.gz
                   COMMAND gzip -9nc ${here}/changelog > ${made}/changelog.gz
                   DEPENDS ${here}/changelog VERBATIM)
add_custom_command(OUTPUT ${made}/duskwalk.spdx.json
                   COMMAND ${CMAKE_COMMAND} -E env SOURCE_DATE_EPOCH=${DUSKWALK_EPOCH}
                           ${here}/bom.py $<TARGET_FILE:duskwalk> ${PROJECT_VERSION}
                           ${deb_architecture} ${made}/duskwalk.spdx.json
                   DEPENDS duskwalk ${here}/bom.py ${here}/linked.tsv VERBATIM)
add_custom_target(package_files DEPENDS ${made}/duskwalk.1.gz ${made}/duskwalk.bash
                                        ${made}/duskwalk.zsh ${made}/duskwalk.fish
                                        ${made}/changelog.gz ${made}/duskwalk.spdx.json)

# A package is made of what was built; it builds no tests.
set(CMAKE_SKIP_INSTALL_ALL_DEPENDENCY ON)
install(TARGETS duskwalk)
install(DIRECTORY ${PROJECT_SOURCE_DIR}/assets/ DESTINATION ${CMAKE_INSTALL_DATADIR}/duskwalk
        PATTERN translations EXCLUDE)  # installed as what msgfmt makes of them
install(FILES ${made}/duskwalk.1.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${made}/duskwalk.bash RENAME duskwalk
        DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
install(FILES ${made}/duskwalk.zsh RENAME _duskwalk
        DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions)
install(FILES ${made}/duskwalk.fish DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)
install(FILES ${here}/desktop/org.example.duskwalk.desktop
        DESTINATION ${CMAKE_INSTALL_DATADIR}/applications)
install(FILES ${here}/desktop/duskwalk.svg
        DESTINATION ${CMAKE_INSTALL_DATADIR}/icons/hicolor/scalable/apps)
install(FILES ${here}/desktop/org.example.duskwalk.metainfo.xml
        DESTINATION ${CMAKE_INSTALL_DATADIR}/metainfo)
install(FILES ${here}/copyright ${made}/changelog.gz ${made}/duskwalk.spdx.json
              ${PROJECT_SOURCE_DIR}/README.md ${PROJECT_SOURCE_DIR}/storage/JOURNAL.md
        DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/duskwalk)

# What only a tablet wants; it sleeps until `duskwalk-tablet on`.
set(tablet ${here}/tablet)
add_custom_command(OUTPUT ${made}/duskwalk-tablet.8.gz
                   COMMAND gzip -9nc ${tablet}/duskwalk-tablet.8 > ${made}/duskwalk-tablet.8.gz
                   DEPENDS ${tablet}/duskwalk-tablet.8 VERBATIM)
target_sources(package_files PRIVATE ${made}/duskwalk-tablet.8.gz)
install(PROGRAMS ${tablet}/duskwalk-tablet DESTINATION ${CMAKE_INSTALL_SBINDIR})
install(FILES ${made}/duskwalk-tablet.8.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man8)
install(FILES ${tablet}/duskwalk.sysusers RENAME sysusers.conf
        DESTINATION ${CMAKE_INSTALL_DATADIR}/duskwalk/tablet)
install(PROGRAMS ${tablet}/stick DESTINATION lib/duskwalk)
install(FILES ${tablet}/duskwalk.service ${tablet}/duskwalk-later.service
              ${tablet}/duskwalk-stick@.service ${tablet}/duskwalk-release.socket
              ${tablet}/duskwalk-release@.service
        DESTINATION ${DUSKWALK_SYSTEM_LIB}/systemd/system)
install(FILES ${tablet}/70-duskwalk.rules DESTINATION ${DUSKWALK_SYSTEM_LIB}/udev/rules.d)

set(CPACK_GENERATOR DEB)
set(CPACK_INSTALL_CMAKE_PROJECTS "${PROJECT_BINARY_DIR};duskwalk;ALL;/")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_PACKAGE_NAME duskwalk)
set(CPACK_STRIP_FILES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ
    GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_ARCHITECTURE ${deb_architecture})
set(CPACK_DEBIAN_PACKAGE_MAINTAINER "Duskwalk maintainers <maintainers@duskwalk.example>")
set(CPACK_DEBIAN_PACKAGE_SECTION misc)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_COMPRESSION_TYPE xz)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION "walk bee yards against varroa mites, offline
For a keeper of honey bees who treats colonies against varroa mites with
oxalic acid vapor: which yards, rounds and colonies are due, the walk colony
by colony, and a treatment register that an inspector can read without
Duskwalk. It needs no network, and keeps each tap durable against crashes,
empty batteries and clocks that jump.
.
Oxalic acid vapor harms lungs, eyes and skin. The label in your hand, local
law and your vaporizer's instructions decide about dose and protection.")
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
# Loaded while it runs, so that nobody sees them in the program: letters, time zones, and the graphics
# libraries without which there is no picture where no window system runs.
set(CPACK_DEBIAN_PACKAGE_DEPENDS "fonts-dejavu-core, fonts-b612, tzdata, libegl1, libgles2, libgl1-mesa-dri")
# A program of its own that speaks where it is there.
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS espeak-ng)
set(CPACK_DUSKWALK_EPOCH ${DUSKWALK_EPOCH})
set(CPACK_PROJECT_CONFIG_FILE ${here}/pack_time.cmake)
set(CPACK_PRE_BUILD_SCRIPTS ${here}/same_times.cmake)
include(CPack)
