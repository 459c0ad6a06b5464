// storage/disk/progress.h -- how far long work has come, for whoever shows it.
#pragma once
#include <cstddef>
#include <functional>
#include <string_view>

namespace storage {

// What is being done ("taking in"), how many of how many. Called from the thread that works, some
// ten times a second at most; may be empty.
using Progress = std::function<void(std::string_view doing, std::size_t done, std::size_t of)>;

}  // namespace storage
