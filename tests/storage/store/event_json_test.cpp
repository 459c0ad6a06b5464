#include "storage/store/event_json.h"

#include <doctest/doctest.h>

#include <variant>

#include "storage/disk/random.h"

namespace event_json_test {

namespace {

using engine::Body;
using engine::Event;
using storage::Record;

// Gives every field of a body a value of its own, so that a mixed-up field shows.
struct Filler {
  storage::IdMaker ids{7};
  int n = 0;

  template <class Tag>
  void fill(engine::Id<Tag>& id) {
    id.bytes = ids(++n);
  }
  void fill(std::string& s) { s = "text \"" + std::to_string(++n) + "\" \xc3\xa9\n\t/"; }
  void fill(bool& b) { b = true; }
  void fill(int& i) { i = -(++n); }
  void fill(std::int64_t& i) { i = ++n; }
  void fill(engine::Mass& m) { m.mg = ++n; }
  void fill(engine::Temperature& t) { t.tenths_c = -(++n); }
  void fill(engine::Date& d) {
    d = std::chrono::year{2026} / 2 / 1;
    d = std::chrono::sys_days{d} + std::chrono::days{++n};
  }
  void fill(engine::Spot& s) { s = {++n, -(++n)}; }
  void fill(engine::Place& p) { p = {++n, -(++n)}; }
  void fill(engine::Seconds& s) { s = engine::Seconds{++n}; }
  template <engine::Named E>
  void fill(E& e) {
    e = static_cast<E>(enum_names(E{}).size() - 1);
  }
  // The last of its kinds, with every field filled.
  void fill(engine::Replacement& instead) {
    constexpr std::size_t kLast = std::variant_size_v<engine::ReplacementBody> - 1;
    std::variant_alternative_t<kLast, engine::ReplacementBody> body;
    fill(body);
    instead = engine::Replacement{std::move(body)};
  }
  template <class T>
  void fill(std::optional<T>& o) {
    fill(o.emplace());
  }
  template <class T>
  void fill(std::vector<T>& v) {
    v.resize(3);
    for (T& item : v) fill(item);
  }
  template <class T>
  requires requires(T& t, Filler& f) { T::fields(t, f); }
  void fill(T& t) { T::fields(t, *this); }

  template <class T>
  void operator()(const char*, T& value) {
    fill(value);
  }
};

// Bodies have no operator== of their own: their fields have.
template <class T>
std::string shown(const T& body) {
  return storage::to_record({{}, {}, Body{body}}).body;
}

template <std::size_t I = 0, class F>
void each_kind(F&& f) {
  if constexpr (I < std::variant_size_v<engine::AnyKind>) {
    f(std::variant_alternative_t<I, engine::AnyKind>{});
    each_kind<I + 1>(f);
  }
}

Event event_of(Body body) {
  Event e;
  storage::IdMaker ids(3);
  e.ref = {engine::DeviceId{ids(1)}, 12};
  e.stamp = {engine::Utc{engine::Ms{1'786'000'000'123}}, std::chrono::minutes{-420}, "boot-1",
             engine::Ms{99'000}};
  e.body = std::move(body);
  return e;
}

Record record_of(const std::string& kind, const std::string& body) {
  Record r = storage::to_record(event_of(engine::WalkPaused{}));
  r.kind = kind;
  r.body = body;
  return r;
}

const std::string kId = "018f0000-0000-7000-8000-000000000001";

}  // namespace

TEST_CASE("every kind comes back from its record with every field filled") {
  each_kind([](auto body) {
    using Kind = decltype(body);
    INFO(std::string(Kind::kKind));
    Filler filler;
    filler.fill(body);
    const Record r = storage::to_record(event_of(body));
    const auto back = storage::to_event(r);
    REQUIRE_MESSAGE(back.ok(), back.status().message());
    CHECK(std::holds_alternative<Kind>(back.value().body));
    CHECK(storage::to_record(back.value()) == r);
    CHECK(storage::well_formed(r).ok());
  });
}

TEST_CASE("the fields of a body come back as values, not only as the same text") {
  engine::VaporizerSet set;
  Filler filler;
  filler.fill(set);
  set.dose = {2300};
  const auto back = storage::to_event(storage::to_record(event_of(set)));
  REQUIRE(back.ok());
  const auto& got = std::get<engine::VaporizerSet>(back.value().body);
  CHECK(got.walk == set.walk);
  CHECK(got.colony == set.colony);
  CHECK(got.battery == set.battery);
  CHECK(got.dose.mg == 2300);
  CHECK(got.brood_boxes == set.brood_boxes);
  CHECK(back.value().stamp == event_of(set).stamp);
  CHECK(back.value().ref == event_of(set).ref);
}

TEST_CASE("a correction of each kind comes back with every field filled") {
  each_kind([](auto body) {
    Filler filler;
    filler.fill(body);
    const auto instead = engine::replacement_of(Body{body});
    if (!instead) return;
    INFO(std::string(decltype(body)::kKind));
    const Record r = storage::to_record(event_of(engine::EntryCorrected{{}, "typo", *instead}));
    const auto back = storage::to_event(r);
    REQUIRE_MESSAGE(back.ok(), back.status().message());
    CHECK(storage::to_record(back.value()) == r);
    const auto& got = std::get<engine::EntryCorrected>(back.value().body);
    CHECK(shown(std::get<decltype(body)>(engine::body_of(got.instead))) == shown(body));
  });
}

TEST_CASE("a correction of what cannot be corrected names the field") {
  const std::string head = R"({"entry":{"device":")" + kId + R"(","seq":1},"instead":)";
  struct Row {
    std::string name, body, want;
  };
  const Row rows[] = {
      {"no object", head + R"(1,"reason":"x"})", "instead: must be an object"},
      {"no such kind", head + R"({"body":{},"kind":"walk_closed"},"reason":"x"})",
       "instead.kind: must be one that can be corrected"},
      {"body missing", head + R"({"kind":"note"},"reason":"x"})", "instead.body: is missing"},
      {"a field of it", head + R"({"body":{"text":1},"kind":"note"},"reason":"x"})",
       "instead.body.text: must be text"},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    const auto back = storage::to_event(record_of("entry_corrected", r.body));
    REQUIRE_FALSE(back.ok());
    CHECK(back.status().message().find(r.want) != std::string::npos);
  }
}

TEST_CASE("nested rules and conditions come back equal") {
  engine::WalkOpened opened;
  Filler filler;
  filler.fill(opened);
  const auto back = storage::to_event(storage::to_record(event_of(opened)));
  REQUIRE(back.ok());
  const auto& got = std::get<engine::WalkOpened>(back.value().body);
  CHECK(got.rules == opened.rules);
  CHECK(got.conditions == opened.conditions);
  CHECK(got.colonies == opened.colonies);
}

TEST_CASE("an unset optional field is absent, keys are sorted and there are no spaces") {
  engine::YardAdded added;
  added.name = "Upper Field";
  added.yard.bytes = *engine::uuid_from_text(kId);
  CHECK(shown(added) == R"({"name":"Upper Field","note":"","yard":")" + kId + R"(","zone":""})");
  added.place = engine::Place{40'000'000, -105'000'000};
  CHECK(shown(added) ==
        R"({"name":"Upper Field","note":"","place":{"lat_udeg":40000000,"lon_udeg":-105000000},)"
        R"("yard":")" +
            kId + R"(","zone":""})");
}

TEST_CASE("text that is not UTF-8 still makes a record that can be read back") {
  engine::NoteWritten note;
  note.text = "caf\xe9";
  const auto back = storage::to_event(storage::to_record(event_of(note)));
  REQUIRE(back.ok());
  CHECK(std::get<engine::NoteWritten>(back.value().body).text == "caf\xef\xbf\xbd");
}

TEST_CASE("a key of a later version is passed over") {
  const auto back =
      storage::to_event(record_of("walk_paused", R"({"later":{"a":[1]},"walk":")" + kId + R"("})"));
  REQUIRE(back.ok());
  CHECK(engine::text(std::get<engine::WalkPaused>(back.value().body).walk) == kId);
}

TEST_CASE("an unknown kind is named") {
  const auto back = storage::to_event(record_of("bees_counted", "{}"));
  CHECK(back.status().code() == engine::Code::TooNew);
  CHECK(back.status().message().find("bees_counted") != std::string::npos);
}

// Acid leaves the shelf: so many milligrams.
std::string disposed(const std::string& mg) {
  return R"({"lot":")" + kId + R"(","on":"2026-08-14","amount":)" + mg +
         R"(,"why":"expired","how":""})";
}

TEST_CASE("an amount or length at its bound is taken, so that no sum of them can overflow") {
  CHECK(storage::to_event(record_of("acid_disposed", disposed("1000000000000"))).ok());
  engine::SetupChanged setup;
  setup.rules.emplace().seal_goal = std::chrono::hours{24 * 36'525};
  CHECK(storage::to_event(storage::to_record(event_of(setup))).ok());
  setup.rules->seal_goal += engine::Seconds{1};
  const auto beyond = storage::to_event(storage::to_record(event_of(setup)));
  CHECK(beyond.status().message().find("rules.seal_goal: must be a length") != std::string::npos);
}

TEST_CASE("a wrong field is named with its kind and path") {
  struct Row {
    std::string kind;
    std::string body;
    std::string says;
  };
  const std::string id = "\"" + kId + "\"";
  const Row rows[] = {
      {"walk_paused", "{}", "walk_paused.walk: is missing"},
      {"walk_paused", R"({"walk":7})", "walk_paused.walk: must be an id"},
      {"walk_paused", R"({"walk":null})", "walk_paused.walk: must be an id"},
      {"walk_paused", R"({"walk":"018f"})", "walk_paused.walk: must be an id"},
      {"note", R"({"text":["a"]})", "note.text: must be text"},
      {"yard_lost", R"({"yard":)" + id + R"(,"reason":true})", "yard_lost.reason: must be text"},
      {"kit_added", R"({"item":)" + id + R"(,"sort":"broom","name":"a"})",
       "kit_added.sort: must be one of its known words"},
      {"course_planned", R"({"course":)" + id + R"(,"yard":)" + id + R"(,"rounds":["2026-02-30"]})",
       "course_planned.rounds[0]: must be a day"},
      {"course_planned", R"({"course":)" + id + R"(,"yard":)" + id + R"(,"rounds":"now"})",
       "course_planned.rounds: must be a list"},
      {"entry_struck", R"({"entry":{"device":)" + id + R"(,"seq":1.5},"reason":""})",
       "entry_struck.entry.seq: must be a whole number"},
      {"entry_struck",
       R"({"entry":{"device":)" + id + R"(,"seq":18446744073709551615},"reason":""})",
       "entry_struck.entry.seq: must be a smaller whole number"},
      {"entry_struck", R"({"entry":4,"reason":""})", "entry_struck.entry: must be an object"},
      {"colony_moved", R"({"colony":)" + id + R"(,"to":)" + id + R"(,"spot":{"x_cm":1}})",
       "colony_moved.spot: must be whole numbers x_cm and y_cm"},
      {"colony_moved",
       R"({"colony":)" + id + R"(,"to":)" + id + R"(,"spot":{"x_cm":1,"y_cm":9999999999}})",
       "colony_moved.spot: must be"},
      {"setup_changed", R"({"rules":{"profile":"a"}})", "setup_changed.rules.product: is missing"},
      {"colony_moved",
       R"({"colony":)" + id + R"(,"to":)" + id + R"(,"spot":{"x_cm":1,"y_cm":10000001}})",
       "each within 100 km"},
      {"acid_disposed", disposed("1000000000001"), "acid_disposed.amount: must be at most"},
      {"acid_disposed", disposed("-1000000000001"), "acid_disposed.amount: must be at most"},
      {"acid_disposed", disposed("9223372036854775807"), "acid_disposed.amount: must be at most"},
  };
  for (const Row& r : rows) {
    INFO(r.body);
    const auto back = storage::to_event(record_of(r.kind, r.body));
    CHECK(back.status().code() == engine::Code::Damaged);
    CHECK_MESSAGE(back.status().message().find(r.says) != std::string::npos,
                  back.status().message());
  }
}

TEST_CASE("hostile JSON is refused without harm") {
  const std::string rows[] = {"",
                              "null",
                              "[]",
                              "7",
                              "{",
                              "{\"walk\":}",
                              "{\"walk\":\"\xff\"}",
                              std::string("{}\0{}", 5),
                              "{} {}",
                              "NaN",
                              std::string(500'000, '['),
                              "{\"a\":" + std::string(400'000, '[') + "}",
                              "{\"walk\":\"\\ud800\"}",
                              "{\"walk\":1e999}"};
  for (const std::string& body : rows) {
    INFO(body.substr(0, 40));
    CHECK(storage::to_event(record_of("walk_paused", body)).status().code() ==
          engine::Code::Damaged);
  }
}

TEST_CASE("who and when of a record must make sense") {
  const Record good = storage::to_record(event_of(engine::WalkPaused{}));
  const auto bad = [&](auto change) {
    Record r = good;
    change(r);
    return storage::to_event(r).status().code() == engine::Code::Damaged;
  };
  REQUIRE(storage::to_event(good).ok());
  CHECK(bad([](Record& r) { r.device = "tablet"; }));
  CHECK(bad([](Record& r) { r.seq = 0; }));
  CHECK(bad([](Record& r) { r.at_utc_ms = INT64_MAX; }));
  CHECK(bad([](Record& r) { r.zone_offset_min = 1440; }));
  CHECK(bad([](Record& r) { r.since_boot_ms = -1; }));
  CHECK(bad([](Record& r) { r.since_boot_ms = INT64_MAX; }));
}

}  // namespace event_json_test
