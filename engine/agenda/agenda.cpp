#include "engine/agenda/agenda.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "engine/season/given.h"
#include "engine/words/words.h"

namespace engine {
namespace {

using mites::Decision;

std::string in_days(int days) {
  return counted(static_cast<std::size_t>(std::abs(days)), "day", "days");
}

std::string over_words(int days_over) {
  if (days_over == 0) return "due today";
  return days_over > 0 ? in_days(days_over) + " overdue" : "in " + in_days(days_over);
}

bool has_rounds_planned(const Farm& farm, YardId yard) {
  return std::any_of(farm.courses.begin(), farm.courses.end(), [&](const auto& c) {
    if (c.second.yard != yard || c.second.ended) return false;
    const auto rounds = rounds_of(farm, c.second);
    return std::any_of(rounds.begin(), rounds.end(), [](const RoundState& r) { return !r.walked; });
  });
}

bool treated_since(const Farm& farm, const ColonyCount& count) {
  const std::vector<Date> given = days_treated(farm, count.spell.colony);
  return !given.empty() && given.back() >= count.spell.last;
}

// Of the counted colonies at least half were treated on the day of their count or after.
bool yard_treated_since(const Farm& farm, const YardCount& count) {
  const auto& all = count.colonies;
  const auto n = std::count_if(all.begin(), all.end(),
                               [&](const ColonyCount& c) { return treated_since(farm, c); });
  return 2 * static_cast<std::size_t>(n) >= all.size();
}

std::string numbers_of(double per_100, const Threshold& threshold) {
  return fmt::format("{:.1f} in 100, threshold {:g}", per_100, threshold.per_100);
}

// Single colonies to treat in a yard that as a whole need not be.
std::vector<const ColonyCount*> colonies_over(const Farm& farm, const YardCount& count) {
  std::vector<const ColonyCount*> over;
  for (const ColonyCount& c : count.colonies)
    if (c.decision == Decision::Treat && !treated_since(farm, c) &&
        !is_dead_out(farm, farm.colonies.at(c.spell.colony)))
      over.push_back(&c);
  return over;
}

YardAnswer single_colonies(const Farm& farm, const std::vector<const ColonyCount*>& over,
                           bool planned) {
  YardAnswer answer{planned ? YardNeed::Planned : YardNeed::Plan, {}};
  for (const ColonyCount* c : over) {
    answer.numbers += fmt::format("{}{}: {}", answer.numbers.empty() ? "" : "; ",
                                  colony_name(farm, c->spell.colony),
                                  numbers_of(c->estimate.per_100, c->threshold));
    answer.colonies.push_back(c->spell.colony);
  }
  return answer;
}

YardAnswer uncounted(const Farm& farm, YardId yard, Date on) {
  for (const Colony* colony : colonies_of(farm, yard))
    if (!samples_missing(farm, colony->id, on).empty())
      return {YardNeed::Sample, "the bees in the samples are missing"};
  return {YardNeed::NeverCounted, {}};
}

AgendaItem item_of(AgendaKind kind, YardId yard, std::string about) {
  AgendaItem item{.kind = kind, .yard = yard};
  item.about = std::move(about);
  return item;
}

bool left_covered(const ComeBack& c) {
  return std::any_of(c.reasons.begin(), c.reasons.end(),
                     [](const ComeBackReason& r) { return r.why == ComeBackWhy::LeftCovered; });
}

// Builds the list kind by kind.
struct Maker {
  const Farm& farm;
  const Due& due;
  Date on;
  std::vector<AgendaItem> out{};

  void shut_hives() {
    for (const ComeBack& c : due.come_backs) {
      if (!left_covered(c)) continue;
      out.push_back(item_of(AgendaKind::Shut, c.yard,
                            fmt::format("{} is closed, the bees need air: take the cloth off",
                                        colony_name(farm, c.colony))));
      out.back().walk = c.walk;
      out.back().colonies = {c.colony};
    }
  }
  void open_walks() {
    for (const auto& [device, id] : farm.walk_under_way) {
      const Walk& walk = farm.walks.at(id);
      const Date since = local_date(walk.opened);
      out.push_back(
          item_of(AgendaKind::OpenWalk, walk.yard,
                  fmt::format("walk open since {} {}{}", iso_date(since), clock_time(walk.opened),
                              since == on ? "" : ": take off every cloth, close it")));
      out.back().walk = id;
    }
  }
  void to_treat(const CountOf& count_of) {
    std::vector<std::pair<double, AgendaItem>> found;
    for (const Yard* yard : yards(farm)) {
      const YardCount* count = count_of(yard->id);
      const YardAnswer answer = yard_answer(farm, yard->id, on, count);
      if (answer.need != YardNeed::Plan) continue;
      AgendaItem item =
          item_of(AgendaKind::Treat, yard->id,
                  answer.numbers + (answer.sure ? ": plan rounds"
                                                : ", not sure yet: plan rounds or count more"));
      item.colonies = answer.colonies;
      found.emplace_back(urgency_of(*count), std::move(item));
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    for (auto& [urgency, item] : found) out.push_back(std::move(item));
  }
  // A walk of the evening, after midnight too, stands in place of its yard's round.
  [[nodiscard]] bool is_walked_now(YardId yard) const {
    return std::any_of(farm.walk_under_way.begin(), farm.walk_under_way.end(), [&](const auto& w) {
      const Walk& walk = farm.walks.at(w.second);
      return walk.yard == yard && days_apart(local_date(walk.opened), on) <= 1;
    });
  }
  void rounds(const std::vector<DueRound>& list, AgendaKind kind) {
    for (std::size_t i = 0; i < list.size(); ++i) {
      const DueRound& r = list[i];
      if (kind == AgendaKind::Round && is_walked_now(r.yard)) continue;
      out.push_back(
          item_of(kind, r.yard,
                  fmt::format("round {} of {}, {}", r.number, r.of, over_words(r.days_over))));
      out.back().course = r.course;
      out.back().place = i;
    }
  }
  // One item for neighbours of a list that are in one yard. `first` is where the list begins.
  AgendaItem& of_yard(std::size_t first, AgendaKind kind, YardId yard, std::size_t place) {
    if (out.size() == first || out.back().yard != yard) {
      out.push_back(item_of(kind, yard, {}));
      out.back().place = place;
    }
    return out.back();
  }
  void come_backs() {
    const std::size_t first = out.size();
    for (std::size_t i = 0; i < due.come_backs.size(); ++i) {
      const ComeBack& c = due.come_backs[i];
      of_yard(first, AgendaKind::ComeBack, c.yard, i).colonies.push_back(c.colony);
    }
    for (std::size_t i = first; i < out.size(); ++i)
      out[i].about = "come back to " + counted(out[i].colonies.size(), "colony", "colonies");
  }
  [[nodiscard]] std::string names(const std::vector<ColonyId>& colonies) const {
    std::string all;
    for (const ColonyId c : colonies)
      all += (all.empty() ? "" : ", ") + std::string(colony_name(farm, c));
    return all;
  }
  void dead_outs() {
    for (const ColonyId id : due.dead_outs) {
      out.push_back(
          item_of(AgendaKind::DeadOut, farm.colonies.at(id).yard,
                  fmt::format("{} was found dead: mark it lost?", colony_name(farm, id))));
      out.back().colonies = {id};
    }
  }
  void ends(const std::vector<TreatmentEnd>& list, bool strips) {
    for (const TreatmentEnd& end : list) {
      if ((end.kind == EndKind::StripsOut) != strips) continue;
      std::string about = words_of(end);
      if (strips) about += ", " + over_words(days_apart(end.on, on));
      out.push_back(
          item_of(strips ? AgendaKind::StripsOut : AgendaKind::Wait, end.yard, std::move(about)));
      out.back().colonies = end.colonies;
      out.back().end = end;
    }
  }
  void post_counts() {
    for (std::size_t i = 0; i < due.post_counts.size(); ++i) {
      const DuePostCount& c = due.post_counts[i];
      if (c.days_over < 0) continue;
      out.push_back(item_of(AgendaKind::PostCount, c.yard,
                            fmt::format("count after the rounds, {}", over_words(c.days_over))));
      out.back().course = c.course;
      out.back().place = i;
    }
  }
  void samples() {
    const std::size_t first = out.size();
    for (std::size_t i = 0; i < due.samples.size(); ++i) {
      const DueSample& s = due.samples[i];
      std::vector<ColonyId>& all = of_yard(first, AgendaKind::Sample, s.yard, i).colonies;
      if (all.empty() || all.back() != s.colony) all.push_back(s.colony);
    }
    for (std::size_t i = first; i < out.size(); ++i)
      out[i].about = "how large was the sample? Counted without it: " + names(out[i].colonies);
  }
  void counts() {
    for (std::size_t i = 0; i < due.counts.size(); ++i) {
      const DueCount& c = due.counts[i];
      out.push_back(item_of(AgendaKind::Count, c.yard,
                            c.last ? fmt::format("count, last on {}, {} ago", iso_date(*c.last),
                                                 in_days(c.days_since))
                                   : std::string("count, never counted")));
      out.back().place = i;
    }
  }
};

}  // namespace

YardAnswer yard_answer(const Farm& farm, YardId yard, Date on, const YardCount* count) {
  if (count == nullptr) return uncounted(farm, yard, on);
  if (yard_treated_since(farm, *count))
    return {has_rounds_planned(farm, yard) ? YardNeed::Planned : YardNeed::CountAfter,
            numbers_of(count->estimate.pooled_per_100, count->threshold)};
  const double rate = count->estimate.pooled_per_100;
  const bool treat = count->decision == Decision::Treat;
  const bool over = treat || rate >= count->threshold.per_100;
  const auto single = over ? std::vector<const ColonyCount*>{} : colonies_over(farm, *count);
  const bool planned = (over || !single.empty()) && has_rounds_planned(farm, yard);
  if (!single.empty()) return single_colonies(farm, single, planned);
  YardAnswer answer{YardNeed::Watch, numbers_of(rate, count->threshold)};
  answer.sure = treat || !over;
  if (over)
    answer.need = planned ? YardNeed::Planned : YardNeed::Plan;
  else if (count->decision == Decision::Recount)
    answer.need = YardNeed::CountMore;
  return answer;
}

std::string line_of(const AgendaItem& item, const Farm& farm) {
  return fmt::format("{}: {}", farm.yards.at(item.yard).name, item.about);
}

std::vector<AgendaItem> agenda_of(const Farm& farm, const Due& due, Date on,
                                  const CountOf& count_of, std::span<const MethodRules> methods) {
  const std::vector<TreatmentEnd> ends = treatment_ends(farm, methods, on);
  Maker m{farm, due, on};
  m.shut_hives();
  m.open_walks();
  m.to_treat(count_of);
  m.rounds(due.rounds, AgendaKind::Round);
  m.come_backs();
  m.dead_outs();
  m.ends(ends, true);
  m.post_counts();
  m.samples();
  m.counts();
  m.ends(ends, false);
  m.rounds(due.coming, AgendaKind::Coming);
  return m.out;
}

std::vector<AgendaItem> agenda_of(const Farm& farm, const Due& due, Date on,
                                  std::span<const MethodRules> methods) {
  std::map<YardId, std::optional<YardCount>> counts;
  for (const Yard* yard : yards(farm)) counts[yard->id] = yard_count(farm, yard->id, on);
  const auto count_of = [&](YardId yard) -> const YardCount* {
    const auto& count = counts[yard];
    return count ? &*count : nullptr;
  };
  return agenda_of(farm, due, on, count_of, methods);
}

std::vector<AgendaItem> agenda_on(const Farm& farm, Date on, std::span<const MethodRules> methods) {
  return agenda_of(farm, due_on(farm, on), on, methods);
}

}  // namespace engine
