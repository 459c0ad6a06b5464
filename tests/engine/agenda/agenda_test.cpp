// What Today, Counts, Courses and `duskwalk due` say comes from one list; here it is held to what
// each part says for itself, also over farms of any entries.
#include "engine/agenda/agenda.h"

#include <random>

#include "tests/support/any_body.h"
#include "tests/support/evening.h"

namespace agenda_test {

using namespace evening;

namespace {

Date day(unsigned d, unsigned month = 8) {
  return Date{std::chrono::year{2026}, std::chrono::month{month}, std::chrono::day{d}};
}

void wash(Keeper& k, int n, unsigned d, int mites, std::optional<int> bees = 300) {
  k.does(at(0), CountTaken{colony(n), day(d), CountMethod::AlcoholWash, mites, bees, {}, {}});
}

std::vector<std::string> lines(const Keeper& k, Date on) {
  std::vector<std::string> out;
  for (const AgendaItem& item : agenda_on(k.farm, on)) out.push_back(line_of(item, k.farm));
  return out;
}

bool says(const Keeper& k, Date on, const std::string& line) {
  const auto all = lines(k, on);
  return std::find(all.begin(), all.end(), line) != all.end();
}

const AgendaItem* find(const std::vector<AgendaItem>& all, AgendaKind kind, YardId in) {
  for (const AgendaItem& item : all)
    if (item.kind == kind && item.yard == in) return &item;
  return nullptr;
}

}  // namespace

TEST_CASE("a yard over its threshold leads until rounds are planned") {
  Keeper k = keeper_with(2, 1);
  wash(k, 1, 13, 20), wash(k, 2, 13, 18);
  CHECK(lines(k, day(14)).front() == "Long Acre: 6.3 in 100, threshold 3: plan rounds");
  k.does(at(1), CoursePlanned{id<CourseId>(1), yard(), {day(15), day(20)}});
  CHECK(find(agenda_on(k.farm, day(14)), AgendaKind::Treat, yard()) == nullptr);
  const auto count = yard_count(k.farm, yard(), day(14));
  CHECK(yard_answer(k.farm, yard(), day(14), &*count).need == YardNeed::Planned);
  k.does(at(2), CourseEnded{id<CourseId>(1), "no"});
  CHECK(find(agenda_on(k.farm, day(14)), AgendaKind::Treat, yard()) != nullptr);
}

TEST_CASE("one colony far over its threshold leads by its name in a yard that is not") {
  Keeper k = keeper_with(4, 1);
  wash(k, 1, 13, 30);
  for (const int n : {2, 3, 4}) wash(k, n, 13, 0);
  const auto all = agenda_on(k.farm, day(14));
  const AgendaItem* item = find(all, AgendaKind::Treat, yard());
  REQUIRE(item != nullptr);
  if (!item->colonies.empty()) CHECK(item->about == "C1: 10.0 in 100, threshold 3: plan rounds");
}

TEST_CASE("what was treated since the count does not lead any more") {
  Keeper k = keeper_with(1, 1);
  wash(k, 1, 13, 20);
  k.does(at(1), opening(k));
  confirm_all(k);
  k.does(at(10), set(1));
  k.does(at(100), uncover(1));
  k.does(at(110), WalkClosed{walk()});
  CHECK(find(agenda_on(k.farm, day(15)), AgendaKind::Treat, yard()) == nullptr);
  const auto count = yard_count(k.farm, yard(), day(15));
  CHECK(yard_answer(k.farm, yard(), day(15), &*count).need == YardNeed::CountAfter);
}

TEST_CASE("a count without its bees is no count: it is asked for its sample until it has one") {
  Keeper k = keeper_with(1, 1);
  wash(k, 1, 13, 20, std::nullopt);
  CHECK(says(k, day(14), "Long Acre: how large was the sample? Counted without it: C1"));
  CHECK(says(k, day(14), "Long Acre: count, never counted"));
  CHECK_FALSE(yard_count(k.farm, yard(), day(14)));
  CHECK(yard_answer(k.farm, yard(), day(14), nullptr).need == YardNeed::Sample);
  const DueSample missing = due_on(k.farm, day(14)).samples.at(0);
  CountTaken whole = missing.taken;
  whole.bees = 300;
  k.does(at(5), EntryCorrected{missing.entry, "the sample was missing",
                               Replacement{ReplacementBody{whole}}});
  CHECK(due_on(k.farm, day(14)).samples.empty());
  CHECK(due_on(k.farm, day(14)).counts.empty());
  CHECK(says(k, day(14), "Long Acre: 6.7 in 100, threshold 3: plan rounds"));
}

TEST_CASE("a later whole count makes the sample of an older one no matter") {
  Keeper k = keeper_with(1, 1);
  wash(k, 1, 10, 20, std::nullopt);
  wash(k, 1, 13, 2);
  CHECK(due_on(k.farm, day(14)).samples.empty());
}

TEST_CASE("a colony found dead leaves visits and doses and waits to be marked lost") {
  Keeper k = on_a_walk(2, 1);
  k.does(at(10), ColonyPassedOver{walk(), colony(2), PassReason::DeadOut, {}});
  CHECK(says(k, day(14), "Long Acre: C2 was found dead: mark it lost?"));
  CHECK(come_back_list(k.farm).empty());
  CHECK(colonies_to_treat(k.farm, yard()).size() == 1);
  k.does(at(20), WalkClosed{walk()});
  CHECK(due_on(k.farm, day(14)).dead_outs == std::vector{colony(2)});
  k.does(at(30), ComeBackSettled{colony(2), "a cluster sits low"});
  CHECK(due_on(k.farm, day(14)).dead_outs.empty());
  CHECK(colonies_to_treat(k.farm, yard()).size() == 2);
}

TEST_CASE("the list stands in its order: open, treat, rounds, come back, dead, counts, to come") {
  std::mt19937 random(14);
  for (int farm = 0; farm < 60; ++farm) {
    INFO(farm);
    AnyBody any(random, 1);
    Keeper k = keeper_with(4, 2, 2);
    for (int n = 0; n < 120; ++n) {
      Body body = any();
      if (any.pick(4) == 0)
        body = CountTaken{colony(1 + any.pick(4)), day(1 + static_cast<unsigned>(any.pick(20))),
                          CountMethod::AlcoholWash, any.pick(30),
                          any.pick(4) == 0 ? std::nullopt : std::optional(300)};
      if (any.pick(8) == 0)
        body = CoursePlanned{id<CourseId>(1 + any.pick(9)),
                             yard(),
                             {day(10 + static_cast<unsigned>(any.pick(8))), day(20)}};
      if (any.pick(8) == 0) body = opening(k, 1 + any.pick(3));
      const Event e = k.next(at(n * 60), body);
      if (why_not(k.farm, e) == Refusal::None) k.farm = apply(std::move(k.farm), e);
    }
    for (const unsigned d : {10U, 14U, 20U}) {
      const Due due = due_on(k.farm, day(d));
      const auto all = agenda_of(k.farm, due, day(d));
      for (std::size_t i = 1; i < all.size(); ++i) REQUIRE(all[i - 1].kind <= all[i].kind);
      for (const Yard* y : yards(k.farm)) {
        const auto count = yard_count(k.farm, y->id, day(d));
        const YardAnswer answer = yard_answer(k.farm, y->id, day(d), count ? &*count : nullptr);
        const bool leads = find(all, AgendaKind::Treat, y->id) != nullptr;
        REQUIRE(leads == (answer.need == YardNeed::Plan));
        // What Counts calls TREAT leads, has rounds, or was treated since.
        if (count && count->decision == mites::Decision::Treat)
          REQUIRE((answer.need == YardNeed::Plan || answer.need == YardNeed::Planned ||
                   answer.need == YardNeed::CountAfter));
      }
      const auto n = [&](AgendaKind kind) {
        return static_cast<std::size_t>(std::count_if(
            all.begin(), all.end(), [&](const AgendaItem& i) { return i.kind == kind; }));
      };
      REQUIRE(n(AgendaKind::Round) <= due.rounds.size());
      REQUIRE(n(AgendaKind::Coming) == due.coming.size());
      REQUIRE(n(AgendaKind::Count) == due.counts.size());
      REQUIRE(n(AgendaKind::DeadOut) == due.dead_outs.size());
      std::size_t colonies = 0;
      for (const AgendaItem& i : all)
        if (i.kind == AgendaKind::ComeBack) colonies += i.colonies.size();
      REQUIRE(colonies == due.come_backs.size());
      for (const ComeBack& c : due.come_backs)
        for (const ColonyId dead : due.dead_outs) REQUIRE(c.colony != dead);
    }
  }
}

}  // namespace agenda_test
