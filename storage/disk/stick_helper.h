// SPDX-License-Identifier: MIT
// storage/disk/stick_helper.h -- asking the tablet's root to unmount a stick.
//
// On a tablet the screens run as an ordinary user, who may unmount nothing. What mounted the sticks
// listens on a socket (packaging/tablet/stick): it takes a mount point as one line and answers in
// one word. On other machines nobody listens.
#pragma once
#include <chrono>
#include <string>

namespace storage {

enum class HelperSays { Absent, Unmounted, Busy, Refused };

inline constexpr const char* kStickHelper = "/run/duskwalk-release";

// Absent: nobody listens, or gave no answer that is known within `most`. Unmounting flushes first,
// which may take as long as the stick is slow.
[[nodiscard]] HelperSays ask_to_unmount(const std::string& mount_point,
                                        const std::string& socket = kStickHelper,
                                        std::chrono::seconds most = std::chrono::seconds{60});

}  // namespace storage
