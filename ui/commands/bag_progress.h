// ui/commands/bag_progress.h -- what a bundle's writer and its checker report, as a progress line
// shows it.
#pragma once
#include <utility>

#include "storage/bundle/bag.h"
#include "ui/commands/progress_line.h"

namespace ui {

// Bytes in kilobytes, so that the rate can be read. Empty when `show` is.
[[nodiscard]] inline storage::OnProgress of_bag(storage::Progress show) {
  if (!show) return {};
  return [show = std::move(show)](const storage::BagProgress& bag) {
    constexpr const char* kDoing[] = {"writing (kB)", "reading back (kB)", "finishing"};
    constexpr std::uint64_t kKilo = 1000;
    show(kDoing[static_cast<std::size_t>(bag.step)], static_cast<std::size_t>(bag.done / kKilo),
         static_cast<std::size_t>(bag.total / kKilo));
  };
}

}  // namespace ui
