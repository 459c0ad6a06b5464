// storage/disk/threads.h -- how work beside the caller's is started. Inside storage/ only.
#pragma once
#include <future>

namespace storage {

// In a thread of its own or, where none can be had, when the answer is asked for. (The standard
// leaves the choice open; libstdc++ takes a thread whenever there is one.)
inline constexpr auto kWhereThereIsRoom = std::launch::async | std::launch::deferred;

}  // namespace storage
