#include "ui/touch/faults.h"

#include <fmt/format.h>

#include <algorithm>

namespace ui {

namespace {

constexpr float kGrace = 0.1F;  // mm: half a pixel on a 10.1 inch panel

}  // namespace

std::vector<std::string> small_targets(const Touch& t) {
  std::vector<std::string> out;
  for (const Target& target : t.targets()) {
    const float w = target.rect.w / t.frame().px_per_mm;
    const float h = target.rect.h / t.frame().px_per_mm;
    if (w + kGrace >= kTargetWide && h + kGrace >= kTargetHigh) continue;
    out.push_back(fmt::format("\"{}\" is {:.1f} x {:.1f} mm", target.label, w, h));
  }
  return out;
}

std::vector<std::string> tight_gaps(const Touch& t) {
  std::vector<std::string> out;
  const auto& all = t.targets();
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (std::size_t j = i + 1; j < all.size(); ++j) {
      const float gap = gap_between(all[i].rect, all[j].rect) / t.frame().px_per_mm;
      if (gap + kGrace >= kTargetGap) continue;
      out.push_back(
          fmt::format("\"{}\" and \"{}\" are {:.1f} mm apart", all[i].label, all[j].label, gap));
    }
  }
  return out;
}

std::vector<std::string> pale_texts(const Touch& t) {
  std::vector<std::string> out;
  for (const ShownText& shown : t.texts()) {
    const double ratio = contrast_ratio(shown.ink, shown.ground);
    if (ratio >= kLeastContrast) continue;
    out.push_back(fmt::format("\"{}\" has contrast {:.2f} ({} on {})", shown.text, ratio,
                              hex(shown.ink), hex(shown.ground)));
  }
  return out;
}

std::vector<std::string> overflows(const Touch& t) {
  std::vector<std::string> out;
  for (const ShownText& shown : t.texts()) {
    if (shown.cut) out.push_back(fmt::format("\"{}\" does not fit", shown.text));
    if (!holds(t.screen(), shown.rect)) {
      out.push_back(fmt::format("\"{}\" leaves the screen", shown.text));
    }
  }
  for (const Target& target : t.targets()) {
    if (holds(t.screen(), target.rect)) continue;
    out.push_back(fmt::format("target \"{}\" leaves the screen", target.label));
  }
  return out;
}

std::vector<std::string> double_labels(const Touch& t) {
  std::vector<std::string> names;
  for (const Target& target : t.targets()) names.push_back(target.label);
  std::sort(names.begin(), names.end());
  std::vector<std::string> out;
  for (std::size_t i = 1; i < names.size(); ++i) {
    if (names[i] == names[i - 1])
      out.push_back(fmt::format("two targets are called \"{}\"", names[i]));
  }
  return out;
}

std::vector<std::string> faults(const Touch& t) {
  std::vector<std::string> all;
  for (auto* check : {&small_targets, &tight_gaps, &pale_texts, &overflows, &double_labels}) {
    const auto found = (*check)(t);
    all.insert(all.end(), found.begin(), found.end());
  }
  return all;
}

}  // namespace ui
