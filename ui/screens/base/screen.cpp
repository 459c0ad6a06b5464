#include "ui/screens/base/screen.h"

namespace ui {

namespace {

const StickSeen* stick_to_write(const Look& look) {
  for (const StickSeen& s : look.sticks)
    if (!s.read_only) return &s;
  return nullptr;
}

}  // namespace

std::string paper_folder(const Look& look) {
  const StickSeen* stick = stick_to_write(look);
  return stick != nullptr ? stick->path : look.log_folder;
}

std::string paper_place(const Look& look) {
  const StickSeen* stick = stick_to_write(look);
  if (stick != nullptr) return "onto " + (stick->name.empty() ? "the stick" : stick->name);
  return look.log_folder.empty() ? "put a stick in first" : "on this tablet";
}

engine::Refusal why_not(const Look& look, const engine::Body& body) {
  const auto last = look.farm.last_seq.find(look.device);
  const std::int64_t seq = last == look.farm.last_seq.end() ? 1 : last->second + 1;
  return engine::why_not(look.farm, engine::Event{{look.device, seq}, look.now, body});
}

}  // namespace ui
