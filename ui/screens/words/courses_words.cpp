#include "ui/screens/words/courses_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace ui {

engine::Surrounding around(const Look& look) {
  const auto vapor =
      std::find_if(look.methods.begin(), look.methods.end(),
                   [](const engine::MethodRules& m) { return m.method == engine::Method::Vapor; });
  return {look.today(), vapor == look.methods.end() ? nullptr : &*vapor, {}};
}

std::string with_days(std::string line, engine::Date today) {
  constexpr std::size_t kIso = 10;
  for (std::size_t i = 0; i + kIso <= line.size(); ++i) {
    const auto day = engine::date_from_iso(std::string_view(line).substr(i, kIso));
    if (!day) continue;
    const std::string words = short_day(*day, today);
    line.replace(i, kIso, words);
    i += words.size() - 1;
  }
  return line;
}

std::vector<std::string> proposal_lines(const engine::Proposal& p, engine::Date today) {
  std::vector<std::string> lines;
  for (const std::string& line : p.lines) lines.push_back(with_days(line, today));
  return lines;
}

const engine::Course* course_of(const engine::Farm& farm, engine::YardId yard) {
  const engine::Course* found = nullptr;
  for (const auto& [id, course] : farm.courses)
    if (course.yard == yard && !course.ended) found = &course;
  return found;
}

std::optional<engine::BroodlessWindow> yard_window(const Look& look, engine::YardId yard) {
  std::optional<engine::BroodlessWindow> all;
  for (const engine::Colony* c : engine::colonies_of(look.farm, yard)) {
    const auto one = engine::broodless_window(c->brood, look.today());
    if (!one) return std::nullopt;
    if (!all) {
      all = one;
      continue;
    }
    all->first = std::max(all->first, one->first);
    all->last = std::min(all->last, one->last);
    all->caged = all->caged || one->caged;
  }
  if (all && all->first > all->last) return std::nullopt;
  return all;
}

std::string window_line(const engine::BroodlessWindow& w, engine::Date today) {
  return fmt::format(
      "{} from {} to {}: every mite is on bees then. One round does more than seven with brood at "
      "the same kill (model).",
      w.caged ? "No capped brood (queens caged)" : "No capped brood", short_day(w.first, today),
      short_day(w.last, today));
}

std::vector<RoundOn> rounds_on(const Look& look, engine::Date on) {
  std::vector<RoundOn> found;
  for (const auto& [id, course] : look.farm.courses) {
    if (course.ended || on < course.rounds.front() || on > course.rounds.back()) continue;
    if (look.farm.yards.at(course.yard).lost) continue;
    const auto& rounds = look.answers.season.rounds(look.farm, course, look.today());
    for (std::size_t i = 0; i < rounds.size(); ++i)
      if (rounds[i].planned == on)
        found.push_back({course.yard, static_cast<int>(i + 1), static_cast<int>(rounds.size()),
                         rounds[i].walked.has_value(), rounds[i].whole(),
                         rounds[i].walked ? engine::walked_words(rounds[i]) : std::string()});
  }
  return found;
}

}  // namespace ui
