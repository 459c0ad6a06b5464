// One function a kind: what happened, in one line. describe() in words.h puts the colony or yard
// before it.
#include <fmt/format.h>

#include "engine/farm/queries.h"
#include "engine/words/lookup.h"
#include "engine/words/words.h"

namespace engine {
namespace {

std::string with_note(const std::string& line, const std::string& note) {
  return note.empty() ? line : line + ": " + note;
}

std::string joined(const std::vector<std::string>& parts, const char* between = ", ") {
  std::string out;
  for (const std::string& p : parts) {
    if (p.empty()) continue;
    if (!out.empty()) out += between;
    out += p;
  }
  return out;
}

// Of a tablet's id as people see it; what is no id is shown as it is.
std::string last_digits(const std::string& id) {
  constexpr std::size_t kShown = 8;
  return id.size() > kShown ? id.substr(id.size() - kShown) : id;
}

std::string on_dates(const std::vector<Date>& dates) {
  std::vector<std::string> parts;
  for (const Date d : dates) parts.push_back(iso_date(d));
  return joined(parts);
}

// "clean after 40 settings"; empty when it is not given.
std::string number_in(const char* before, const std::optional<int>& n, const char* after) {
  return n ? fmt::format("{} {} {}", before, *n, after) : std::string();
}

struct Say {
  const Farm& farm;
  Units units;

  [[nodiscard]] std::string kit(KitId item) const { return kit_called(farm, item); }

  // On which basis the grams of a walk are; dihydrate is the journal's default.
  [[nodiscard]] Basis basis(WalkId walk) const {
    if (const auto at = farm.walks.find(walk); at != farm.walks.end())
      return at->second.rules.basis;
    const auto opened = opening_of(farm, walk);
    return opened ? opened->rules.basis : Basis::Dihydrate;
  }

  // ---- places ----

  std::string operator()(const YardAdded& e) const { return with_note("yard added", e.note); }

  std::string operator()(const YardChanged& e) const {
    return "yard changed: " +
           joined({e.name ? "name " + *e.name : "", e.place ? "place" : "",
                   e.zone ? "time zone " + *e.zone : "", e.note ? "note " + *e.note : "",
                   e.gate ? "gate" : "", e.address ? "address" : "", e.access ? "way in" : "",
                   e.landowner ? "landowner" : "", e.private_note ? "private note" : ""});
  }

  std::string operator()(const YardLost& e) const { return with_note("yard given up", e.reason); }

  static std::string supers(bool on) { return on ? "honey supers on" : "no honey supers on"; }

  static std::string boxes(int n) {
    return counted(static_cast<std::size_t>(n), "brood box", "brood boxes");
  }

  std::string operator()(const ColonyAdded& e) const {
    const char* sort = e.sort.value_or(ColonySort::Hive) == ColonySort::Hive ? "" : words(*e.sort);
    return with_note(joined({"colony added", sort, boxes(e.brood_boxes), supers(e.supers_on)}),
                     e.note);
  }

  static std::string queen(const std::optional<bool>& gone) {
    return !gone ? "" : *gone ? "queenless" : "with a queen";
  }
  static std::string leaks(const std::optional<std::vector<Leak>>& there) {
    if (!there) return {};
    std::vector<std::string> parts;
    for (const Leak leak : *there) parts.emplace_back(words(leak));
    return parts.empty() ? "no leaks" : "leaks: " + joined(parts, " and ");
  }

  std::string operator()(const ColonyChanged& e) const {
    return "colony changed: " +
           joined({e.name ? "name " + *e.name : "", e.brood_boxes ? boxes(*e.brood_boxes) : "",
                   e.supers_on ? supers(*e.supers_on) : "", e.spot ? "spot" : "",
                   e.order ? "place in the walk" : "", e.note ? "note " + *e.note : "",
                   e.sort ? words(*e.sort) : "", queen(e.queenless), leaks(e.leaks)});
  }

  std::string operator()(const ColonyMoved& e) const {
    return "moved to yard " + yard_called(farm, e.to);
  }

  std::string operator()(const ColonyLost& e) const { return with_note("colony lost", e.reason); }

  std::string operator()(const YardsJoined&) const {
    return "two entered yards are one, with all that was entered of both";
  }
  std::string operator()(const ColoniesJoined&) const {
    return "two entered colonies are one, with all that was entered of both";
  }

  // ---- kit ----

  static std::string watt_hours(const std::optional<int>& n) {
    return n ? fmt::format("{} Wh", *n) : std::string();
  }

  std::string operator()(const KitAdded& e) const {
    return joined({kit(e.item) + " added", watt_hours(e.watt_hours)});
  }

  std::string operator()(const KitChanged& e) const {
    std::string retired;
    if (e.retired) retired = *e.retired ? "retired" : "back in use";
    return kit(e.item) + ": " +
           joined({e.name ? "now called " + *e.name : "", retired, watt_hours(e.watt_hours),
                   e.fit_tested ? "fit tested " + iso_date(*e.fit_tested) : ""});
  }

  std::string operator()(const BatteryChanged& e) const {
    return fmt::format("{}: {} put in{}", kit(e.vaporizer), kit(e.battery),
                       e.was_empty ? ", the one before was empty" : "");
  }

  std::string operator()(const BatteryCharged& e) const { return kit(e.battery) + " charged"; }
  std::string operator()(const VaporizerCleaned& e) const { return kit(e.vaporizer) + " cleaned"; }

  std::string operator()(const FilterChanged& e) const {
    return with_note(kit(e.respirator) + ": new cartridge",
                     joined({e.cartridge, e.last_day ? "until " + iso_date(*e.last_day) : ""}));
  }

  std::string operator()(const StockReceived& e) const {
    return joined(
        {fmt::format("{} of {} received", show(e.amount, units.mass), e.product),
         e.code.empty() ? "" : "lot " + e.code, e.expiry ? "expires " + iso_date(*e.expiry) : "",
         e.supplier.empty() ? "" : "from " + e.supplier,
         e.receipt.empty() ? "" : "receipt " + e.receipt, e.on ? "bought " + iso_date(*e.on) : ""});
  }

  std::string operator()(const AcidDisposed& e) const {
    return with_note(fmt::format("{} of {} disposed of on {}, {}", show(e.amount, units.mass),
                                 lot_called(farm, e.lot), iso_date(e.on), words(e.why)),
                     e.how);
  }

  // ---- season ----

  std::string operator()(const CountTaken& e) const {
    const auto n = static_cast<std::size_t>(e.mites);
    std::string line =
        fmt::format("{} of {}: {}", words(e.method), iso_date(e.on), counted(n, "mite", "mites"));
    if (e.bees) line += fmt::format(" on {} bees", *e.bees);
    if (e.hours) line += fmt::format(" in {} hours", *e.hours);
    if (e.second_shake) line += fmt::format(", {} of them in a second shake", *e.second_shake);
    return with_note(line, e.note);
  }

  std::string operator()(const CoursePlanned& e) const {
    return fmt::format("course planned, {}: {}", counted(e.rounds.size(), "round", "rounds"),
                       on_dates(e.rounds));
  }

  std::string operator()(const CourseChanged& e) const {
    return with_note("course changed, rounds " + on_dates(e.rounds), e.reason);
  }

  std::string operator()(const CourseEnded& e) const { return with_note("course ended", e.reason); }

  [[nodiscard]] std::string dates_of(const std::vector<CourseDates>& courses) const {
    std::vector<std::string> parts;
    for (const CourseDates& c : courses)
      parts.push_back(fmt::format("{} {}", course_yard_called(farm, c), on_dates(c.rounds)));
    return joined(parts, "; ");
  }

  std::string operator()(const CoursesPlanned& e) const {
    return with_note("rounds planned: " + dates_of(e.courses), e.reason);
  }

  std::string operator()(const FreeEveningsSet& e) const {
    std::vector<std::string> parts;
    for (const Weekday d : e.weekdays) parts.emplace_back(words(d));
    return "free evenings: " + (parts.empty() ? "none" : joined(parts));
  }

  std::string operator()(const EveningChanged& e) const {
    return with_note(
        fmt::format("evening of {} {}", iso_date(e.on), e.free ? "is free" : "is not free"),
        e.reason);
  }

  std::string operator()(const EveningLost& e) const {
    const std::string lost =
        with_note(fmt::format("evening of {} lost, {}", iso_date(e.on), words(e.why)), e.note);
    return e.moved.empty() ? lost : lost + "; rounds moved: " + dates_of(e.moved);
  }

  std::string operator()(const DriveTimeSet& e) const {
    return fmt::format("{} from {}",
                       counted(static_cast<std::size_t>(e.minutes), "minute", "minutes"),
                       e.from ? yard_called(farm, *e.from) : "home") +
           " by car";
  }

  std::string operator()(const AirExpected& e) const {
    return fmt::format("{} {}: {}", iso_date(e.on), name(e.part),
                       e.air ? show(*e.air, farm.setup.temperature_unit) + " expected"
                             : std::string("what was expected is taken back"));
  }

  std::string operator()(const BoardPutIn& e) const {
    return "sticky board put in on " + iso_date(e.on);
  }

  std::string operator()(const BroodNoted& e) const {
    std::vector<std::string> names;
    for (const ColonyId c : e.colonies) names.push_back(colony_called(farm, c));
    return with_note(fmt::format("{} on {}: {}", words(e.what), iso_date(e.on), joined(names)),
                     e.note);
  }

  // ---- the walk ----

  std::string operator()(const WalkOpened& e) const {
    return joined({fmt::format("walk opened, {}", counted(e.colonies.size(), "colony", "colonies")),
                   words(e.conditions, units),
                   e.rules.product.empty() ? "" : "label " + e.rules.product,
                   e.operator_name.empty() ? "" : "by " + e.operator_name,
                   e.reason.empty() ? "" : "reason: " + e.reason});
  }

  std::string operator()(const ProtectionConfirmed& e) const {
    return fmt::format("protection confirmed: {}", words(e.item));
  }

  std::string operator()(const VaporizerSet& e) const {
    return joined({words(e.dose, basis(e.walk), units) + " set", kit(e.vaporizer),
                   e.battery ? kit(*e.battery) : "", e.lot ? lot_called(farm, *e.lot) : "",
                   e.supers_on ? supers(true) : ""});
  }

  std::string operator()(const VaporHalted& e) const {
    return fmt::format("no more vapor, {}", words(e.why));
  }
  std::string operator()(const VaporResumed&) const { return "vapor again"; }

  std::string operator()(const ColonyCovered& e) const {
    return "vaporizer lifted, covered with " + kit(e.cloth);
  }

  std::string operator()(const ColonyUncovered&) const { return "entrance open"; }

  std::string operator()(const ColonyPassedOver& e) const {
    return with_note(fmt::format("passed over, {}", words(e.reason)), e.note);
  }

  std::string operator()(const BeesFlying& e) const { return words(e.flight); }

  std::string operator()(const Mishap& e) const {
    return with_note(fmt::format("mishap, {}", words(e.what)), e.note);
  }

  std::string operator()(const WalkPaused&) const { return "walk paused"; }
  std::string operator()(const WalkResumed&) const { return "walk resumed"; }
  std::string operator()(const WalkClosed& e) const {
    return e.why ? fmt::format("walk ended early, {}", words(*e.why)) : "walk closed";
  }

  std::string operator()(const EnteredLate& e) const {
    const std::string when =
        iso_date(e.on) +
        (e.minute ? " " + clock_time(std::chrono::minutes{*e.minute}) : std::string());
    if (e.passed)
      return with_note(fmt::format("passed over on {}, {} (entered late)", when, words(*e.passed)),
                       e.note);
    return with_note(joined({words(e.dose, e.rules.basis, units) + " given on " + when,
                             e.lot ? lot_called(farm, *e.lot) : "", e.supers_on ? supers(true) : "",
                             "entered late"}),
                     e.note);
  }

  // ---- the rest ----

  std::string operator()(const ComeBackSettled& e) const {
    return with_note("needs no further visit", e.reason);
  }

  std::string operator()(const OtherTreatmentGiven& e) const {
    return with_note(joined({fmt::format("{} on {}", words(e.method), iso_date(e.on)), e.product,
                             e.dose, e.registration.empty() ? "" : "registration " + e.registration,
                             e.lot.empty() ? "" : "lot " + e.lot,
                             fmt::format("withdrawal {} days", e.withdrawal_days)}),
                     e.note);
  }

  std::string operator()(const NoteWritten& e) const { return "note: " + e.text; }

  std::string operator()(const SetupChanged& e) const {
    return "setup changed: " +
           joined({e.operator_name ? "operator " + *e.operator_name : "",
                   e.operator_address ? "address " + *e.operator_address : "",
                   e.temperature_unit ? words(*e.temperature_unit) : "",
                   e.mass_unit ? words(*e.mass_unit) : "",
                   e.theme ? fmt::format("{} theme", words(*e.theme)) : "",
                   e.rules ? "label " + e.rules->product : "", e.home ? "home" : "",
                   e.thresholds ? "thresholds" : "",
                   number_in("clean after", e.clean_every, "settings"),
                   number_in("cartridge for", e.cartridge_hours, "hours"), e.pace ? "pace" : "",
                   e.spoken ? (*e.spoken ? "speech on" : "speech off") : "",
                   number_in("speech of", e.speech_speed, "words a minute"),
                   number_in("volume", e.sound_volume, "%"),
                   e.language ? "language " + *e.language : "",
                   number_in("brightness", e.brightness, "%"), e.act_key ? "key for the act" : "",
                   number_in("half a cup holds", e.half_cup_bees, "bees"),
                   e.emergency_number ? "emergency number" : ""});
  }

  std::string operator()(const SetupKept& e) const {
    std::vector<std::string> refs;
    for (const EntryRef& ref : e.entries) refs.push_back(short_ref(ref));
    return "kept the setup of this tablet beside what others say in entries " + joined(refs);
  }

  std::string operator()(const ClockFollowed&) const {
    return "entries of other tablets taken in: what comes now comes after them";
  }

  std::string operator()(const TabletKeyed&) const {
    return "this tablet signs its entries from now on";
  }

  std::string operator()(const TabletTrusted& e) const {
    if (e.tablet && e.through)
      return fmt::format("took in tablet {} up to its entry {}", last_digits(*e.tablet),
                         *e.through);
    if (e.key) return "paired with the tablet of key " + e.key->substr(0, 8);
    return "from now on only known and paired tablets count";
  }

  std::string operator()(const TabletRefused& e) const {
    return fmt::format("kept out tablet {} from its entry {} on", last_digits(e.tablet), e.from);
  }

  std::string operator()(const ContradictionSettled& e) const {
    std::vector<std::string> refs;
    for (const EntryRef& ref : e.entries) refs.push_back(short_ref(ref));
    return with_note("settled what tablets said of entries " + joined(refs), e.decision);
  }

  // The entry by its number and, unless it is a strike, its words.
  [[nodiscard]] std::string entry(const EntryRef& ref) const {
    const EntryHandle there = find_entry(farm, ref);
    const auto words_there = there == nullptr ? std::nullopt : words_of(*there);
    const bool strike = there == nullptr || facts_of(there->event.body).is_strike();
    const std::string number = "entry " + short_ref(ref);
    if (words_there) return number + " (" + instead(*words_there) + ")";
    return strike ? number : number + " (" + std::visit(*this, there->event.body) + ")";
  }

  [[nodiscard]] std::string instead(const Replacement& i) const {
    return std::visit(*this, i.body());
  }

  std::string operator()(const EntryStruck& e) const {
    return with_note("struck " + entry(e.entry), e.reason);
  }

  // Names what counts again, not the strike.
  std::string operator()(const StrikeTakenBack& e) const {
    const EntryHandle strike = find_entry(farm, e.strike);
    if (strike == nullptr) return with_note("took back entry " + short_ref(e.strike), e.reason);
    if (const auto* c = std::get_if<EntryCorrected>(&strike->event.body))
      return with_note("took back the correction of " + entry(c->entry), e.reason);
    const auto* struck = std::get_if<EntryStruck>(&strike->event.body);
    const std::string what =
        struck == nullptr ? "entry " + short_ref(e.strike) : entry(struck->entry);
    return with_note("took back the strike of " + what, e.reason);
  }

  std::string operator()(const EntryCorrected& e) const {
    return with_note("corrected " + entry(e.entry) + " to " + instead(e.instead), e.reason);
  }
};

}  // namespace

std::string describe(const Body& body, const Farm& farm, Units units) {
  std::string line = std::visit(Say{farm, units}, body);
  if (const auto colony = colony_of(body, farm)) return colony_called(farm, *colony) + ": " + line;
  if (const auto yard = yard_of(body, farm)) return yard_called(farm, *yard) + ": " + line;
  return line;
}

std::string describe(const Body& body, const Farm& farm) {
  return describe(body, farm, units_of(farm.setup));
}

}  // namespace engine
