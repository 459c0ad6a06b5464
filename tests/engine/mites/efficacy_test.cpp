#include "engine/mites/efficacy.h"

#include <doctest/doctest.h>

namespace efficacy_test {

using namespace engine::mites;

TEST_CASE("Henderson-Tilton with its log limits") {
  // Formula, by hand: R = (9/45)(40/60), sum of 1/x = 0.175, z = 1.959964.
  const EfficacyCounts counts{{9, 300}, {45, 300}, {60, 300}, {40, 300}};
  const Efficacy e = efficacy(EfficacyMethod::HendersonTilton, counts);
  CHECK(e.percent == doctest::Approx(86.6667).epsilon(1e-6));
  CHECK(e.low == doctest::Approx(69.7293).epsilon(1e-6));
  CHECK(e.high == doctest::Approx(94.1271).epsilon(1e-6));
  CHECK_FALSE(e.zero_corrected);
  // Pooled colonies spread more than chance: wider, same middle.
  const Efficacy wide = efficacy(EfficacyMethod::HendersonTilton, counts, 2);
  CHECK(wide.percent == doctest::Approx(e.percent));
  CHECK(wide.low < e.low);
  CHECK(wide.high > e.high);
}

TEST_CASE("the methods read only the counts they name, per bee") {
  const EfficacyCounts counts{{5, 250}, {30, 300}, {40, 400}, {0, 1}};
  CHECK(efficacy(EfficacyMethod::Abbott, counts).percent == doctest::Approx(80));
  CHECK(efficacy(EfficacyMethod::Reduction, counts).percent == doctest::Approx(80));
  CHECK_FALSE(efficacy(EfficacyMethod::Abbott, counts).zero_corrected);
  CHECK(efficacy(EfficacyMethod::HendersonTilton, counts).zero_corrected);
}

TEST_CASE("a count of zero gets half a mite everywhere, and says so") {
  const Efficacy e = efficacy(EfficacyMethod::Reduction, {{0, 300}, {24, 300}, {}, {}});
  CHECK(e.zero_corrected);
  CHECK(e.percent == doctest::Approx(100 * (1 - 0.5 / 24.5)));
  CHECK(e.low < e.percent);
}

TEST_CASE("counts that rose give a negative change") {
  CHECK(efficacy(EfficacyMethod::Reduction, {{20, 300}, {10, 300}, {}, {}}).percent ==
        doctest::Approx(-100));
}

TEST_CASE("follow-up: what the second treatment still found") {
  // COLOSS BEEBOOK vol. II: killed / (killed + killed by the follow-up). Limits: exact binomial;
  // all of 20 killed gives 0.025^(1/20) below.
  const Efficacy all = follow_up_efficacy(20, 0);
  CHECK(all.percent == 100);
  CHECK(all.low == doctest::Approx(83.1567).epsilon(1e-5));
  CHECK(all.high == 100);
  CHECK(follow_up_efficacy(93, 7).percent == doctest::Approx(93));
}

}  // namespace efficacy_test
