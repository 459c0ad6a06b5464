#include "tests/bench/operation.h"

#include <fmt/format.h>

#include <chrono>
#include <optional>
#include <vector>

#include "engine/events/event.h"
#include "storage/store/event_json.h"

namespace operation {
namespace {

using namespace engine;

// An id of a sort (so that none of another sort is equal) and a number.
template <class IdType>
IdType id(int sort, std::int64_t n) {
  IdType made;
  made.bytes[0] = 1;
  made.bytes[6] = 0x70, made.bytes[8] = 0x80;  // reads as version 7, RFC 9562
  made.bytes[9] = static_cast<std::uint8_t>(sort);
  for (std::size_t i = 0; i < 5; ++i)
    made.bytes[15 - i] = static_cast<std::uint8_t>(static_cast<std::uint64_t>(n) >> (8 * i));
  return made;
}

YardId yard(int n) { return id<YardId>(2, n); }
ColonyId colony(int n) { return id<ColonyId>(3, n); }
LotId lot(int year) { return id<LotId>(4, year); }
KitId kit(int tablet, int n) { return id<KitId>(5, tablet * 100 + n); }

struct Tablet {
  DeviceId id;
  std::int64_t seq = 0;
  storage::Hash last{};
  std::int64_t at_ms = 0;  // its clock
};

constexpr int kVaporizer = 1, kBattery = 2, kRespirator = 3, kFirstCloth = 10, kCloths = 6;

LabelRules rules() {
  LabelRules r;
  r.profile = "invented";
  r.product = "oxalic acid dihydrate, invented label";
  r.registration = "INV-1";
  r.per_brood_box = Mass{1000};
  r.most_per_brood_box = Mass{1000};
  r.supers = Supers::Allowed;
  r.cartridge = "acid gas and particles";
  r.seal_least = Seconds{300};
  return r;
}

class Generator {
 public:
  Generator(const Size& size, const std::function<void(const storage::Sealed&)>& take)
      : size_(size), take_(take) {
    for (int n = 1; n <= size.tablets; ++n) tablets_.push_back({tablet(n), 0, {}, 0});
  }

  std::int64_t run() {
    set_up();
    for (int year = 0; year < size_.years && !full(); ++year)
      for (int day = 0; day < 365 && !full(); ++day) evening(year, day);
    return made_;
  }

 private:
  [[nodiscard]] bool full() const { return made_ >= size_.events; }
  [[nodiscard]] int yard_of(int colony) const { return colony % size_.yards; }
  [[nodiscard]] int tablet_of(int yard) const { return yard % size_.tablets; }

  static std::int64_t morning(int year, int day) {
    constexpr std::int64_t kStart = 1'420'070'400'000;  // 2015-01-01T00:00:00Z
    return kStart + (std::int64_t{365} * year + day) * 86'400'000;
  }

  EntryRef say(Tablet& t, Body body, int seconds_later) {
    if (full()) return {};
    t.at_ms += std::int64_t{1000} * seconds_later;
    const std::int64_t day = t.at_ms / 86'400'000;
    Event e{{t.id, ++t.seq},
            {Utc{Ms{t.at_ms}}, std::chrono::minutes{-420},
             fmt::format("8c1f3d5e-0000-4000-8000-{:012x}", day), Ms{t.at_ms % 86'400'000}},
            std::move(body)};
    const storage::Sealed sealed = storage::seal(storage::to_record(e), t.last);
    t.last = sealed.hash;
    ++made_;
    take_(sealed);
    return e.ref;
  }

  void set_up() {
    for (Tablet& t : tablets_) t.at_ms = morning(0, 0);
    Tablet& first = tablets_.front();
    SetupChanged setup;
    setup.operator_name = "A. Keeper";
    setup.operator_address = "1 Invented Road";
    setup.rules = rules();
    say(first, setup, 1);
    for (int y = 0; y < size_.yards; ++y)
      say(first,
          YardAdded{yard(y), fmt::format("Yard {:02}", y + 1),
                    Place{40'000'000 + y * 10'000, -110'000'000 + y * 13'000}, "America/Denver",
                    ""},
          1);
    for (int c = 0; c < size_.colonies; ++c)
      say(first,
          ColonyAdded{colony(c), yard(yard_of(c)), fmt::format("H{:04}", c + 1), 1 + c % 2, false,
                      Spot{c * 37 % 6000, c * 91 % 4000}, c / size_.yards, ""},
          1);
    for (int t = 0; t < size_.tablets; ++t) add_kit(first, t);
  }

  void add_kit(Tablet& first, int t) {
    say(first, KitAdded{kit(t, kVaporizer), KitSort::Vaporizer, fmt::format("V{}", t + 1)}, 1);
    say(first, KitAdded{kit(t, kBattery), KitSort::Battery, fmt::format("B{}", t + 1)}, 1);
    say(first, KitAdded{kit(t, kRespirator), KitSort::Respirator, fmt::format("R{}", t + 1)}, 1);
    for (int n = 0; n < kCloths; ++n)
      say(first, KitAdded{kit(t, kFirstCloth + n), KitSort::Cloth, fmt::format("C{}-{}", t + 1, n)},
          1);
    say(first, BatteryChanged{kit(t, kVaporizer), kit(t, kBattery), false}, 1);
  }

  void evening(int year, int day) {
    for (Tablet& t : tablets_) t.at_ms = std::max(t.at_ms, morning(year, day) + 70'000'000);
    if (day == 20) buy(year);
    // Four courses of three rounds, each yard on its own evenings.
    for (int y = 0; y < size_.yards; ++y) {
      const int in_course = day % 91 - 10 - y % 20;
      if (in_course == -5) plan(year, day, y);
      if (in_course == 0 || in_course == 6 || in_course == 12) walk(year, day, y);
      if (in_course == -3 || in_course == 17) count(year, day, y);
    }
    if (day % 30 == 7) odds_and_ends(day);
  }

  void buy(int year) {
    StockReceived stock;
    stock.lot = lot(year);
    stock.product = "oxalic acid dihydrate, invented label";
    stock.code = fmt::format("L-{}", 2015 + year);
    stock.supplier = "Invented Supplies";
    stock.receipt = fmt::format("no. {}", 4000 + year);
    stock.amount = Mass{60'000'000};
    say(tablets_.front(), stock, 5);
    lot_year_ = year;
  }

  void plan(int year, int day, int y) {
    CoursePlanned course;
    course.course = id<CourseId>(6, (std::int64_t{year} * 1000 + day) * 100 + y);
    course.yard = yard(y);
    for (const int later : {5, 11, 17})
      course.rounds.push_back(
          Date{std::chrono::floor<std::chrono::days>(Utc{Ms{morning(year, day + later)}})});
    say(tablets_[static_cast<std::size_t>(tablet_of(y))], course, 30);
  }

  void walk(int year, int day, int y) {
    const int t = tablet_of(y);
    Tablet& tablet = tablets_[static_cast<std::size_t>(t)];
    WalkOpened open;
    open.walk = id<WalkId>(7, (std::int64_t{year} * 1000 + day) * 100 + y);
    open.yard = yard(y);
    open.conditions.temperature = Temperature{80 + (day * 7 + y) % 150};
    open.rules = rules();
    for (int c = y; c < size_.colonies; c += size_.yards) open.colonies.push_back(colony(c));
    open.vaporizers = {kit(t, kVaporizer)};
    for (int n = 0; n < kCloths; ++n) open.cloths.push_back(kit(t, kFirstCloth + n));
    open.respirator = kit(t, kRespirator);
    open.operator_name = "A. Keeper";
    open.operator_address = "1 Invented Road";
    open.reason = "mites over the threshold";
    say(tablet, open, 300);
    for (const Protection p :
         {Protection::Respirator, Protection::EyeProtection, Protection::Gloves,
          Protection::RinseWater, Protection::NobodyDownwind})
      say(tablet, ProtectionConfirmed{open.walk, p}, 3);
    treat(tablet, open, t);
    say(tablet, WalkClosed{open.walk}, 30);
  }

  void treat(Tablet& tablet, const WalkOpened& open, int t) {
    std::vector<ColonyId> covered;
    for (std::size_t i = 0; i < open.colonies.size(); ++i) {
      const ColonyId c = open.colonies[i];
      ++visits_;
      if (visits_ % 97 == 0) {
        say(tablet, ColonyPassedOver{open.walk, c, PassReason::Other, "tipped over"}, 20);
        continue;
      }
      const VaporizerSet set{open.walk,
                             c,
                             kit(t, kVaporizer),
                             kit(t, kBattery),
                             lot_year_ ? std::optional(lot(*lot_year_)) : std::nullopt,
                             Mass{1000},
                             1 + static_cast<int>(i % 2),
                             false};
      const EntryRef entry = say(tablet, set, 40);
      if (visits_ % 211 == 0 && !full()) {  // the wrong hive was tapped, and taken back at once
        say(tablet, EntryStruck{entry, "tapped the wrong hive"}, 10);
        say(tablet, set, 10);
      }
      if (covered.size() == kCloths) {
        say(tablet, ColonyUncovered{open.walk, covered.front()}, 15);
        covered.erase(covered.begin());
      }
      say(tablet, ColonyCovered{open.walk, c, kit(t, kFirstCloth + cloth_++ % kCloths)}, 75);
      covered.push_back(c);
    }
    for (const ColonyId c : covered) say(tablet, ColonyUncovered{open.walk, c}, 200);
  }

  void count(int year, int day, int y) {
    Tablet& tablet = tablets_[static_cast<std::size_t>(tablet_of(y))];
    for (int c = y; c < size_.colonies; c += size_.yards) {
      CountTaken taken;
      taken.colony = colony(c);
      taken.on = Date{std::chrono::floor<std::chrono::days>(Utc{Ms{morning(year, day)}})};
      taken.method = CountMethod::AlcoholWash;
      taken.mites = (c * 7 + day * 3) % 13;
      taken.bees = 300;
      const EntryRef entry = say(tablet, taken, 120);
      if ((c + day) % 301 == 0 && !full())
        say(tablet, EntryStruck{entry, "written down for the wrong hive"}, 20);
    }
  }

  void odds_and_ends(int day) {
    for (int y = 0; y < size_.yards; ++y) {
      Tablet& tablet = tablets_[static_cast<std::size_t>(tablet_of(y))];
      say(tablet, NoteWritten{yard(y), {}, fmt::format("grass cut, day {}, all flying well", day)},
          60);
    }
    for (int t = 0; t < size_.tablets; ++t) {
      Tablet& tablet = tablets_[static_cast<std::size_t>(t)];
      say(tablet, BatteryCharged{kit(t, kBattery)}, 60);
      say(tablet, VaporizerCleaned{kit(t, kVaporizer)}, 60);
    }
  }

  Size size_;
  const std::function<void(const storage::Sealed&)>& take_;
  std::vector<Tablet> tablets_;
  std::optional<int> lot_year_;
  std::int64_t made_ = 0, visits_ = 0;
  int cloth_ = 0;
};

}  // namespace

DeviceId tablet(int n) { return id<DeviceId>(1, n); }

std::int64_t generate(const Size& size, const std::function<void(const storage::Sealed&)>& take) {
  return Generator(size, take).run();
}

}  // namespace operation
