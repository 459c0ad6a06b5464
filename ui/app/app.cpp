#include "ui/app/app.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "engine/events/tag.h"
#include "engine/walk/timers.h"
#include "engine/words/words.h"
#include "storage/trust/pairing.h"
#include "ui/screens/base/theme_now.h"
#include "ui/screens/shell/all_screens.h"
#include "ui/screens/shell/jump.h"

namespace ui {
namespace {

constexpr std::chrono::minutes kClockGrace{2};  // clocks that are set by hand differ a little

Theme named(const std::vector<Theme>& themes, const char* name, Theme fallback) {
  const auto at =
      std::find_if(themes.begin(), themes.end(), [&](const Theme& t) { return t.name == name; });
  return at == themes.end() ? fallback : *at;
}

}  // namespace

App::App(storage::Store store, AppParts parts)
    : store_(std::move(store)),
      parts_(std::move(parts)),
      sun_(named(parts_.themes, "sun", sun_theme())),
      dusk_(named(parts_.themes, "dusk", dusk_theme())),
      night_(named(parts_.themes, "night", night_theme())),
      exchange_(parts_.store_path) {
  look_at_places();
  // After a crash the walk goes on where it was.
  if (engine::walk_under_way(store_.farm(), store_.device()) != nullptr)
    views_.screen = ScreenName::Walk;
  open_where_it_goes_on();
}

// A keeper in a yard must not look for the way out of a locked store: its page is open.
void App::open_where_it_goes_on() {
  if (store_.writable().ok()) return;
  go_to(ToBackups{}, views_);
}

void App::frame(const FrameAt& at) {
  store_.farm().log.let_go();  // what the last frame looked at in an old log
  book_.read(store_.farm(), engine::LogIndex::kPiece);
  go_on_copying();
  fetch_what_was_read();
  exchange_.turn(store_, at.now);
  if (!scanned_code_.empty()) carry(PairWith{std::exchange(scanned_code_, {})}, at.now);
  keep_setup(at.now);
  theme_ = parts_.theme.value_or(theme_now(store_.farm(), store_.device(), at.now));
  touch_.begin({at.width, at.height, at.px_per_mm, &current_theme(), at.fonts, at.touch_ms,
                at.touch_earliest_ms});
  answers_.advance(store_.farm());
  refresh_shown(at.now);
  const Ask ask = all_screens(touch_, look(at.now), views_);
  if (!problem_.empty()) {
    draw_problem();
    return;  // what lies under the message cannot have been meant
  }
  carry_out(ask, at.now);
}

// What was taken in may have given the store a new id: what is set on the tablet goes with it.
void App::keep_setup(const engine::Stamp& now) {
  if (kept_setup_)
    if (const engine::Status said = kept_setup_->say_again(store_, now); !said.ok())
      problem_ = said.message();
  kept_setup_.emplace(store_);
}

void App::draw_problem() {
  const std::array<DialogButton, 1> buttons{{{"OK", Surface::Button, false}}};
  const std::string title = problem_title_.empty() ? "Not saved" : problem_title_;
  if (!dialog(touch_, title, problem_, buttons)) return;
  problem_.clear();
  problem_title_.clear();
}

void App::refresh_shown(const engine::Stamp& now) {
  shown_.bundle = job_.seen();
  refresh_trust();
  shown_.troubles = troubles(now);
}

Look App::look(const engine::Stamp& now) const {
  return {.farm = store_.farm(),
          .device = store_.device(),
          .now = now,
          .fresh_id = parts_.new_id(now.at.time_since_epoch().count()),
          .answers = answers_,
          .book = book_,
          .labels = parts_.labels,
          .methods = parts_.methods,
          .refused_files = parts_.refused_files,
          .store_path = parts_.store_path,
          .log_folder = parts_.log_folder,
          .sticks = sticks_seen_,
          .bundle = shown_.bundle,
          .taken_in = taken_in_,
          .copies = copies_.seen(),
          .exchange = exchange_.seen(),
          .trust = trust_,
          .troubles = shown_.troubles,
          .paper_line = paper_line_,
          .mendable = !store_.writable().ok()};
}

const Theme& App::current_theme() const {
  if (theme_ == engine::Theme::Night) return night_;
  return theme_ == engine::Theme::Dusk ? dusk_ : sun_;
}

// What other tablets' clocks say against what this one wrote last, as long as it goes on like that.
std::string App::contradicted_line(const engine::Stamp& now) const {
  constexpr std::chrono::days kStill{30};
  const engine::DeviceId own = store_.device();
  for (const engine::WrongClock& wrong : store_.wrong_clocks()) {
    const bool accused = wrong.entry.device == own;
    if (!accused && !(wrong.or_else && wrong.or_else->device == own)) continue;
    const auto place = store_.farm().log.find(accused ? wrong.entry : *wrong.or_else);
    if (!place) continue;
    const engine::Utc wrote = store_.farm().log.copy(*place).event.stamp.at;
    if (wrote > now.at + kStill || wrote < now.at - kStill) continue;  // it was set since
    if (!wrong.or_else) return "The other tablets' clocks say another day than this one. Set it.";
    return fmt::format(
        "This tablet's clock and that of tablet {} differ by days. Set the wrong one.",
        engine::short_device(accused ? wrong.or_else->device : wrong.entry.device));
  }
  return {};
}

// A clock that stands before what was written last is wrong now, or was wrong then. Walks do not
// need it (their timers run on the boot clock); the log and the register do.
std::string App::clock_line(const engine::Stamp& now) const {
  const auto& log = store_.farm().log;
  if (log.empty()) return {};
  if (!engine::credible(now))
    return fmt::format("The tablet's clock says {}. Set the clock.",
                       engine::iso_date(engine::local_date(now)));
  if (std::string line = contradicted_line(now); !line.empty()) return line;
  const engine::Stamp last = log.back()->event.stamp;
  if (!engine::credible(last) || now.at + kClockGrace >= last.at) return {};
  return fmt::format(
      "The tablet's clock is behind: the last entry was made on {} at {}. Set the clock.",
      engine::iso_date(engine::local_date(last)), engine::clock_time(last));
}

// The gravest first.
std::vector<Trouble> App::troubles(const engine::Stamp& now) const {
  std::vector<Trouble> all;
  const auto add = [&](TroubleKind kind, std::string line) {
    if (!line.empty()) all.push_back({kind, std::move(line)});
  };
  if (const engine::Status able = store_.writable(); !able.ok())
    add(TroubleKind::Locked,
        able.message() + " Setup, About, Backups: go on with what can be read.");
  if (store_.journal().ballast_spent())
    add(TroubleKind::DiskFull,
        "The tablet's disk is full. Taps are still saved: end the walk, then free some space.");
  add(TroubleKind::Clock, clock_line(now));
  if (const std::string line = store_.unshown(); !line.empty())
    add(TroubleKind::NotShown, line + ". Update this program.");
  add(TroubleKind::Contradictions, contradictions_line());
  add(TroubleKind::Offers, offers_line());
  return all;
}

// Looking for them takes longer than a frame: not in the middle of a walk.
std::string App::contradictions_line() const {
  if (engine::walk_under_way(store_.farm(), store_.device()) != nullptr) return {};
  const std::size_t n = answers_.contradictions(store_.farm()).size();
  if (n == 0) return {};
  return engine::counted(n, "thing that tablets entered contradicts",
                         "things that tablets entered contradict") +
         " each other. Other tablets, in the register: read both sides, then settle it.";
}

std::string App::offers_line() const {
  const std::size_t n = answers_.offers(store_.farm()).size();
  if (n == 0) return {};
  return engine::counted(n, "setting", "settings") +
         " of other tablets, such as a label, may be used here too. Other tablets, in the "
         "register: use it or leave it.";
}

void App::typed(const std::string& text) {
  constexpr std::size_t kMostTyped = 200;  // a tag is far shorter
  for (const char c : text) {
    if (c != '\n' && c != '\r') {
      if (typed_.size() < kMostTyped) typed_ += c;
      continue;
    }
    scan(std::exchange(typed_, {}));
  }
}

void App::scan(const std::string& line) {
  if (storage::key_of_code(line)) scanned_code_ = line;
  const auto tag = engine::colony_of_tag(line);
  if (!tag) return;
  const engine::ColonyId colony = store_.farm().log.joins().of(*tag);
  if (jump_to(store_.farm(), store_.device(), views_, colony)) return;
  problem_title_ = "Not known here";
  problem_ = "This tag is of a colony that is lost or was entered on another tablet.";
}

bool App::alarm_wanted(const engine::Stamp& now) { return tone_wanted(now).has_value(); }

std::optional<Tone> App::tone_wanted(const engine::Stamp& now) {
  const engine::Farm& farm = store_.farm();
  const engine::Walk* walk = engine::walk_under_way(farm, store_.device());
  const engine::Lead* led = walk ? answers_.lead(farm, *walk, now) : nullptr;
  const std::vector<DueTimer> due = due_timers(farm, store_.device(), now, led);
  if (!ui::alarm_wanted(alarm_, due, now.since_boot)) return std::nullopt;
  const bool dwell = due.empty() || due.front().kind == DueKind::Dwell;
  return dwell ? Tone::DwellReady : Tone::SealReady;
}

std::string App::speech_wanted(const engine::Stamp& now) {
  const engine::Farm& farm = store_.farm();
  const engine::Walk* walk = engine::walk_under_way(farm, store_.device());
  if (walk == nullptr || !farm.setup.spoken.value_or(true)) return {};
  return ui::speech_wanted(speech_, look(now), *walk, views_.walk.under_way);
}

int App::listen() {
  auto looks = storage::LookServer::beside(parts_.store_path);
  if (looks.ok()) looks_ = std::move(looks).value();
  return looks_.fd();
}

std::optional<engine::Ms> App::next_frame_in(const engine::Stamp& now) const {
  std::optional<engine::Ms> soonest;
  const auto want = [&](engine::Ms ms) {
    if (!soonest || ms < *soonest) soonest = ms;
  };
  if (touch_.wake()) want(engine::Ms{*touch_.wake()});
  if (!book_.whole()) want(engine::Ms{1});
  if (job_.running()) want(engine::Ms{250});
  if (copies_.running() || looks_.busy()) want(engine::Ms{1});
  if (waits_for_readers()) want(engine::Ms{100});
  if (exchange_.busy()) want(engine::Ms{100});
  if (const auto look = exchange_.next()) want(std::max(engine::Ms{1}, *look - now.since_boot));
  // Countdowns and the clock turn over with the second; minutes are enough when nothing runs.
  const auto* walk = engine::walk_under_way(store_.farm(), store_.device());
  const bool runs =
      walk && (!engine::dwells(*walk, now).empty() || !engine::seals(*walk, now).empty());
  const engine::Ms turn{runs ? 1000 : 60'000};
  want(turn -
       engine::Ms{(runs ? now.since_boot : now.at.time_since_epoch()).count() % turn.count()});
  return soonest;
}

}  // namespace ui
