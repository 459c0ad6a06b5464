#include "ui/app/beside.h"

#include <doctest/doctest.h>

#include <future>
#include <string>

#include "ui/app/places_seen.h"

namespace beside_test {

using namespace std::chrono_literals;

TEST_CASE("the result of a work beside is fetched once") {
  ui::Beside<std::string> work;
  CHECK_FALSE(work.busy());
  work.start([] { return std::string("done"); });
  REQUIRE(work.wait(20s));
  CHECK(work.busy());
  CHECK(work.take() == "done");
  CHECK_FALSE(work.take());
  CHECK_FALSE(work.busy());
}

TEST_CASE("a work that stalls is left behind, and another one begun") {
  std::promise<void> open;
  const std::shared_future<void> gate = open.get_future().share();
  std::promise<void> ended;
  {
    ui::Beside<int> work;
    work.start([gate, &ended] {
      gate.wait();
      ended.set_value_at_thread_exit();
      return 1;
    });
    CHECK_FALSE(work.take());
    CHECK_FALSE(work.wait(10ms));
    work.start([] { return 2; });
    REQUIRE(work.wait(20s));
    CHECK(work.take() == 2);
  }
  open.set_value();
  CHECK(ended.get_future().wait_for(20s) == std::future_status::ready);
}

TEST_CASE("a stick that does not answer hides no other and no copy on it") {
  std::promise<void> open;
  const std::shared_future<void> gate = open.get_future().share();
  ui::PlacesSeen places([gate](const ui::CopyPlace& place) {
    if (place.where == "stalled") gate.wait();
    return ui::PlacesSeen::Found{
        7, {{"duskwalk-backup-" + place.where, place.folder + "/a", place.where, 1}}};
  });
  places.look_at({{"/media/a", "stalled"}, {"/media/b", "good"}});
  places.wait(50ms);
  for (int n = 0; n < 2000 && places.copies().empty(); ++n)
    places.fetch(), std::this_thread::sleep_for(1ms);
  REQUIRE(places.copies().size() == 1);
  CHECK(places.copies()[0].where == "good");
  CHECK(places.free_bytes("/media/b") == 7U);
  CHECK_FALSE(places.free_bytes("/media/a"));
  CHECK(places.busy());
  open.set_value();
  places.wait(20s);
  CHECK(places.fetch());
  CHECK(places.copies().size() == 2);
  CHECK_FALSE(places.busy());
}

}  // namespace beside_test
