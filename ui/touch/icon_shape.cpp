#include "ui/touch/icon_shape.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <optional>
#include <string>

namespace ui {

namespace {

using Kind = IconStroke::Kind;
using Numbers = std::vector<float>;

constexpr std::size_t kMostNumbers = 64;

std::optional<Kind> kind_from(std::string_view word) {
  constexpr std::pair<std::string_view, Kind> kKinds[] = {
      {"line", Kind::Line}, {"loop", Kind::Loop}, {"area", Kind::Area},
      {"ring", Kind::Ring}, {"disc", Kind::Disc}, {"arc", Kind::Arc}};
  for (const auto& [name, kind] : kKinds)
    if (name == word) return kind;
  return std::nullopt;
}

std::string_view next_word(std::string_view& rest) {
  rest.remove_prefix(std::min(rest.find_first_not_of(' '), rest.size()));
  const std::string_view word = rest.substr(0, rest.find(' '));
  rest.remove_prefix(word.size());
  return word;
}

// A decimal number without an exponent: nothing in an icon is "inf".
std::optional<float> number_from(std::string_view word) {
  float value = 0;
  const char* end = word.data() + word.size();
  const auto got = std::from_chars(word.data(), end, value, std::chars_format::fixed);
  if (got.ec != std::errc{} || got.ptr != end || value < -720 || value > 720) return std::nullopt;
  return value;
}

bool on_grid(IconPoint p, float reach) {
  return p.x >= reach && p.y >= reach && p.x <= kIconGrid - reach && p.y <= kIconGrid - reach;
}

// Every corner turns the same way; ImGui fills nothing else.
bool without_dents(const std::vector<IconPoint>& points) {
  bool left = false, right = false;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const IconPoint a = points[i], b = points[(i + 1) % points.size()],
                    c = points[(i + 2) % points.size()];
    const float turn = (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
    left = left || turn < 0;
    right = right || turn > 0;
  }
  return left != right;
}

std::string points_from(const Numbers& numbers, IconStroke& stroke) {
  const std::size_t least = stroke.kind == Kind::Line ? 2 : 3;
  if (numbers.size() % 2 != 0 || numbers.size() < least * 2)
    return fmt::format("needs {} or more points of two numbers each", least);
  for (std::size_t i = 0; i < numbers.size(); i += 2)
    stroke.points.push_back({numbers[i], numbers[i + 1]});
  const float reach = stroke.kind == Kind::Area ? 0 : kIconPen / 2;
  const auto inside = [&](IconPoint p) { return on_grid(p, reach); };
  if (!std::all_of(stroke.points.begin(), stroke.points.end(), inside))
    return "leaves the grid of 24 units";
  if (stroke.kind == Kind::Area && !without_dents(stroke.points)) return "has a dent";
  return {};
}

std::string circle_from(const Numbers& numbers, IconStroke& stroke) {
  const std::size_t want = stroke.kind == Kind::Arc ? 5 : 3;
  if (numbers.size() != want) return fmt::format("needs {} numbers", want);
  stroke.centre = {numbers[0], numbers[1]};
  stroke.radius = numbers[2];
  if (stroke.radius <= 0) return "needs a radius above 0";
  if (stroke.kind == Kind::Arc) {
    stroke.from = numbers[3], stroke.to = numbers[4];
    if (stroke.to <= stroke.from) return "ends before it begins";
    return on_grid(stroke.centre, kIconPen / 2) ? "" : "leaves the grid of 24 units";
  }
  const float reach = stroke.radius + (stroke.kind == Kind::Ring ? kIconPen / 2 : 0);
  return on_grid(stroke.centre, reach) ? "" : "leaves the grid of 24 units";
}

// Empty, or what is wrong with the line.
std::string stroke_from(std::string_view line, IconStroke& stroke) {
  const std::string_view word = next_word(line);
  const auto kind = kind_from(word);
  if (!kind) return fmt::format("\"{}\" is no shape", word);
  stroke.kind = *kind;
  Numbers numbers;
  for (std::string_view n = next_word(line); !n.empty(); n = next_word(line)) {
    const auto value = number_from(n);
    if (!value) return fmt::format("\"{}\" is no number", n);
    if (numbers.size() == kMostNumbers) return "has more than 64 numbers";
    numbers.push_back(*value);
  }
  const bool points = *kind == Kind::Line || *kind == Kind::Loop || *kind == Kind::Area;
  return points ? points_from(numbers, stroke) : circle_from(numbers, stroke);
}

}  // namespace

engine::Result<IconShape> icon_from(std::string_view text) {
  IconShape shape;
  int number = 0;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    ++number;
    if (line.empty() || line.front() == '#') continue;
    IconStroke stroke;
    if (const std::string wrong = stroke_from(line, stroke); !wrong.empty())
      return {engine::Code::BadInput, fmt::format("line {}: {}", number, wrong)};
    shape.push_back(std::move(stroke));
  }
  if (shape.empty()) return {engine::Code::BadInput, "draws nothing"};
  return shape;
}

}  // namespace ui
