#include "ui/commands/targets_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

namespace ui {
namespace {

using nlohmann::ordered_json;

double rounded(float value) { return std::round(static_cast<double>(value) * 100) / 100; }

ordered_json rect_json(const Rect& r, float px_per_unit) {
  return {{"x", rounded(r.x / px_per_unit)},
          {"y", rounded(r.y / px_per_unit)},
          {"w", rounded(r.w / px_per_unit)},
          {"h", rounded(r.h / px_per_unit)}};
}

}  // namespace

std::string targets_json(const Touch& touch, int tones) {
  const float px_per_mm = touch.frame().px_per_mm;
  ordered_json json;
  json["screen"] = {{"px", rect_json(touch.screen(), 1)},
                    {"mm", rect_json(touch.screen(), px_per_mm)}};
  json["targets"] = ordered_json::array();
  for (const Target& t : touch.targets())
    json["targets"].push_back({{"label", t.label},
                               {"enabled", t.enabled},
                               {"hold", t.hold},
                               {"px", rect_json(t.rect, 1)},
                               {"mm", rect_json(t.rect, px_per_mm)}});
  json["texts"] = ordered_json::array();
  for (const ShownText& t : touch.texts())
    json["texts"].push_back({{"text", t.text},
                             {"px", rect_json(t.rect, 1)},
                             {"mm", rect_json(t.rect, px_per_mm)},
                             {"colour", hex(t.ink)},
                             {"ground", hex(t.ground)},
                             {"contrast", std::round(contrast_ratio(t.ink, t.ground) * 100) / 100},
                             {"font_px", rounded(t.font_px)},
                             {"cut", t.cut}});
  json["tones"] = tones;
  return json.dump(1, ' ', false, ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace ui
