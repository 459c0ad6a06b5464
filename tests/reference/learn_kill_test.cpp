// What a course teaches of the keeper's kill: the worked example of the method's description, and
// what must hold of any. tests/reference/learn_model.py compares random cases.
#include "engine/mites/learn_kill.h"

#include <doctest/doctest.h>

#include <cmath>

#include "tests/reference/mites_fixture.h"

namespace learn_kill_test {

using namespace reference;

namespace {

doctest::Approx digits(double value) { return doctest::Approx(value).epsilon(1e-9); }

TaughtCourse seven_rounds(std::vector<WashPair> pairs) {
  TaughtCourse c;
  c.colony = colony();
  c.load = {LoadUnit::WashPer100, 3.0};
  c.treatment.days = spaced_days(0, 7, 5);
  c.post_day = 35;
  c.pairs = std::move(pairs);
  return c;
}

LearnedZ learned(const std::vector<TaughtCourse>& courses) {
  LearnGrid sum{};
  for (const TaughtCourse& c : courses) {
    const Lesson lesson = lesson_of(c);
    for (std::size_t i = 0; i < kLearnPoints; ++i) sum[i] += lesson.log_likelihood[i];
  }
  return LearnedZ(sum);
}

double overdispersion_of(const std::vector<WashPair>& pairs) {
  return overdispersion(pair_spread(pairs));
}

}  // namespace

TEST_CASE("the worked example, to nine digits") {
  const TaughtCourse course = seven_rounds({{{427, 8047}, {162, 6993}}});
  CHECK(lesson_of(course).phi == 3);
  const LearnedZ z = learned({course});
  CHECK(z.quantile(0.1) == digits(-0.2212284249));
  CHECK(z.quantile(0.5) == digits(0.1588878293));
  CHECK(z.quantile(0.9) == digits(0.6104145758));
  const Constants k;
  CHECK(kill_at(z.quantile(0.1), 1, k) == digits(0.5989619383));
  CHECK(kill_at(z.quantile(0.5), 1, k) == digits(0.6957058109));
  CHECK(kill_at(z.quantile(0.9), 1, k) == digits(0.7912890691));
}

TEST_CASE("before any course the band is that of field and exposed kill, at any dose") {
  const LearnedZ prior;
  const Constants k;
  for (const double g : {0.5, 1.0, 2.25, 4.0}) {
    CHECK(kill_at(prior.quantile(0.1), g, k) ==
          doctest::Approx(kill_of_dose(g, Reach::Field, k)).epsilon(1e-3));
    CHECK(kill_at(prior.quantile(0.9), g, k) ==
          doctest::Approx(kill_of_dose(g, Reach::Exposed, k)).epsilon(1e-3));
  }
}

TEST_CASE("the grid's ratios are those of the run, day by day") {
  const TaughtCourse course = seven_rounds({});
  const LearnGrid ratios = modelled_ratios(course);
  for (const std::size_t i : {std::size_t{0}, std::size_t{80}, std::size_t{160}}) {
    Treatment t = course.treatment;
    t.kill = kill_at(learn_point(i), 1, course.colony.constants);
    const ColonyRun r = run(course.colony, start(), t, 35);
    CHECK(ratios[i] == digits(r.wash_per_100[35] / r.wash_per_100[0]));
  }
}

TEST_CASE("a colony's own level drops out") {
  const double few = learned({seven_rounds({{{20, 300}, {6, 300}}})}).quantile(0.5);
  CHECK(learned({seven_rounds({{{20, 3000}, {6, 3000}}})}).quantile(0.5) == digits(few));
  CHECK(learned({seven_rounds({{{0, 300}, {0, 300}}})}).quantile(0.5) ==
        digits(LearnedZ{}.quantile(0.5)));
}

TEST_CASE("more courses narrow what is believed, and fewer mites after raise it") {
  const TaughtCourse one = seven_rounds({{{60, 900}, {20, 900}}});
  const LearnedZ once = learned({one}), thrice = learned({one, one, one});
  CHECK(thrice.quantile(0.9) - thrice.quantile(0.1) < once.quantile(0.9) - once.quantile(0.1));
  CHECK(learned({seven_rounds({{{60, 900}, {5, 900}}})}).quantile(0.5) > once.quantile(0.5));
}

TEST_CASE("spread between colonies: none to see is 3, alike lowers it, unlike raises it") {
  CHECK(overdispersion_of({}) == 3);
  CHECK(overdispersion_of({{{10, 300}, {5, 300}}}) == 3);  // one pair says nothing of spread
  CHECK(overdispersion_of({{{10, 300}, {0, 300}}, {{9, 300}, {0, 300}}}) == 3);
  const std::vector<WashPair> alike(11, {{30, 300}, {10, 300}});
  CHECK(overdispersion_of(alike) == doctest::Approx(1.0));  // 15 / 15
  std::vector<WashPair> unlike = alike;
  for (std::size_t i = 0; i < unlike.size(); i += 2) std::swap(unlike[i].before, unlike[i].after);
  CHECK(overdispersion_of(unlike) > 5);
}

}  // namespace learn_kill_test
