// Prints what the season's answers cost for a whole farm, beside one run of the model.
#include <fmt/format.h>

#include <chrono>

#include "engine/mites/run.h"
#include "engine/mites/search.h"
#include "engine/season/kills.h"
#include "engine/season/verdict.h"

namespace {

using namespace engine;
using Clock = std::chrono::steady_clock;

constexpr int kYards = 8, kColonies = 8;
const Date kToday{std::chrono::year{2026}, std::chrono::month{9}, std::chrono::day{20}};

template <class IdType>
IdType id_of(int a, int b) {
  IdType id;
  id.bytes[13] = 1;
  id.bytes[14] = static_cast<std::uint8_t>(a);
  id.bytes[15] = static_cast<std::uint8_t>(b);
  return id;
}

void add_count(Farm& farm, ColonyId colony, Date on, int mites) {
  farm.counts.push_back({{}, {colony, on, CountMethod::AlcoholWash, mites, 300, {}, {}}});
}

// One course of four rounds a yard, every colony washed before and after.
Farm farm_of() {
  Farm farm;
  for (int y = 1; y <= kYards; ++y) {
    Yard yard;
    yard.id = id_of<YardId>(y, 0);
    yard.name = fmt::format("Y{}", y);
    yard.place = Place{45'000'000, 0};
    farm.yards[yard.id] = yard;
    Course course;
    course.id = id_of<CourseId>(y, 0);
    course.yard = yard.id;
    for (int r = 0; r < 4; ++r) course.rounds.push_back(date_after(kToday, -35 + 5 * r));
    for (int r = 0; r < 4; ++r) {
      Walk walk;
      walk.id = id_of<WalkId>(y, r + 1);
      walk.yard = yard.id;
      walk.course = course.id;
      walk.opened.at = days(course.rounds[static_cast<std::size_t>(r)]);
      for (int c = 1; c <= kColonies; ++c) {
        Stop stop;
        stop.colony = id_of<ColonyId>(y, c);
        Treatment t;
        t.set_at = walk.opened;
        t.dose = Mass{1000};
        stop.treatments.push_back(t);
        walk.stops.push_back(stop);
      }
      farm.walks.put(walk);
    }
    farm.courses[course.id] = course;
    for (int c = 1; c <= kColonies; ++c) {
      Colony colony;
      colony.id = id_of<ColonyId>(y, c);
      colony.yard = yard.id;
      farm.colonies[colony.id] = colony;
      add_count(farm, colony.id, date_after(kToday, -40), 9 + (y + c) % 7);
      add_count(farm, colony.id, date_after(kToday, -5), 3 + (y * c) % 5);
    }
  }
  return farm;
}

template <class Work>
void time(const char* what, int times, Work work) {
  const auto from = Clock::now();
  for (int i = 0; i < times; ++i) work();
  const double ms = std::chrono::duration<double, std::milli>(Clock::now() - from).count() / times;
  fmt::print("{:<52} {:>9.2f} ms\n", what, ms);
}

}  // namespace

int main() {
  const Farm farm = farm_of();
  const YardId yard = farm.yards.begin()->first;
  double seen = 0;  // keeps the work from being left out
  time("one run of the model, 90 days with its warm-up", 100, [&] {
    const auto colony = assumed_colony({}, Place{45'000'000, 0}, kToday).colony;
    const auto start = mites::start_of(colony, {mites::LoadUnit::WashPer100, 3});
    seen += mites::run_untreated(colony, start, 90).total.back();
  });
  {
    const auto colony = assumed_colony({}, Place{45'000'000, 0}, kToday).colony;
    const auto start = mites::start_of(colony, {mites::LoadUnit::WashPer100, 3});
    time("one run of the model, 90 days, started already", 500, [&] {
      seen += mites::run(colony, start, {{0, 5, 10, 15}, 0.5, 0}, 90).total.back();
    });
    mites::SearchAsk ask;  // 20 numbers of rounds by 10 intervals: 200 schedules
    ask.n_max = 20, ask.i_min = 1, ask.i_max = 10, ask.kill = 0.5, ask.tail_days = 0;
    int tried = 0;
    time("a search of schedules over 220 days", 3,
         [&] { tried = mites::search(colony, start, ask, 220).tried; });
    fmt::print("  schedules tried: {}\n", tried);
    ask.n_max = 10, ask.tail_days = 21;
    time("a search of schedules over 90 days", 3,
         [&] { tried = mites::search(colony, start, ask, 90).tried; });
    fmt::print("  schedules tried: {}\n", tried);
  }
  time("growth of one yard to the season's end", 50,
       [&] { seen += yard_growth(farm, yard, kToday, usual_kill(farm))->days.back().mid; });
  time("all options of one yard", 20, [&] {
    seen += course_options(farm, yard, {kToday, usual_kill(farm), 7, 3})->list[0].field.wash;
  });
  time("verdict of one course, 8 colonies with their kills", 10,
       [&] { seen += course_verdict(farm, farm.courses.begin()->first, kToday)->effect.percent; });
  time("the kill that 8 courses teach", 3, [&] {
    KillSurvey survey(farm, kToday);
    survey.go_on(farm, 1000);
    seen += static_cast<double>(survey.by_vaporizer().size());
  });
  fmt::print("({:.0f})\n", seen);
}
