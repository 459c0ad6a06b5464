#include "engine/words/fall_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>

#include "engine/farm/queries.h"
#include "engine/words/words.h"

namespace engine {
namespace {

constexpr std::size_t kMostGroups = 4;  // named one by one; a line has room for no more

// A correction is named by what it says.
Noun noun_of(const Body& body) {
  if (const auto* c = std::get_if<EntryCorrected>(&body)) return noun_of(body_of(c->instead));
  return facts_of(body).noun;
}

std::string short_day(Date on) {
  constexpr std::array<const char*, 12> kMonths{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  assert(on.ok());
  return fmt::format("{} {}", static_cast<unsigned>(on.day()),
                     kMonths.at(static_cast<unsigned>(on.month()) - 1));
}

struct FallGroup {
  Noun noun;
  Date on;
  std::size_t count = 0;
};

std::vector<FallGroup> groups_of(const Farm& farm, const std::vector<EntryRef>& fall) {
  std::vector<FallGroup> groups;
  for (const EntryRef& ref : fall) {
    const auto place = farm.log.find(ref);
    if (!place) continue;
    const Entry e = farm.log.copy(*place);
    const Noun noun = noun_of(e.event.body);
    const Date on = local_date(e.event.stamp);
    const auto same = std::find_if(groups.begin(), groups.end(), [&](const FallGroup& g) {
      return g.on == on && std::string_view(g.noun.one) == noun.one;
    });
    if (same == groups.end())
      groups.push_back({noun, on, 1});
    else
      ++same->count;
  }
  return groups;
}

}  // namespace

std::string words_of_fall(const Farm& farm, const std::vector<EntryRef>& fall) {
  const std::vector<FallGroup> groups = groups_of(farm, fall);
  std::string line;
  std::size_t more = 0;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const FallGroup& g = groups[i];
    if (i >= kMostGroups) {
      more += g.count;
      continue;
    }
    line += fmt::format("{}{} of {}", i == 0 ? "" : ", ", counted(g.count, g.noun.one, g.noun.many),
                        short_day(g.on));
  }
  if (more > 0) line += " and " + counted(more, "other entry", "other entries");
  return line;
}

}  // namespace engine
