#include "ui/app.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <filesystem>
#include <utility>

#include "engine/farm/tag.h"
#include "engine/register/words.h"
#include "engine/walk/timers.h"
#include "storage/day_bundle.h"
#include "storage/intake.h"
#include "storage/register_files.h"
#include "storage/tags_pdf.h"
#include "storage/whole_file.h"

namespace ui {
namespace {

constexpr std::chrono::minutes kClockGrace{2};  // clocks that are set by hand differ a little

StickSeen seen(const storage::Stick& stick) {
  const auto free = storage::free_bytes(stick.path);
  return {stick.name, stick.path, stick.read_only,
          free.ok() ? std::optional(free.value()) : std::nullopt};
}

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
      dusk_(named(parts_.themes, "dusk", dusk_theme())) {
  // After a crash the walk goes on where it was.
  if (engine::walk_under_way(store_.farm(), store_.device()) != nullptr)
    views_.screen = ScreenName::Walk;
}

void App::frame(const FrameAt& at) {
  store_.farm().log.let_go();  // what the last frame looked at in an old log
  touch_.begin({at.width, at.height, at.px_per_mm, &current_theme(), at.fonts, at.touch_ms});
  const Ask ask = all_screens(touch_, look(at.now), views_);
  if (!problem_.empty()) {
    draw_problem();
    return;  // what lies under the message cannot have been meant
  }
  carry_out(ask, at.now);
}

void App::draw_problem() {
  const std::array<DialogButton, 1> buttons{{{"OK", Surface::Button, false}}};
  const std::string title = problem_title_.empty() ? "Not saved" : problem_title_;
  if (!dialog(touch_, title, problem_, buttons)) return;
  problem_.clear();
  problem_title_.clear();
}

Look App::look(const engine::Stamp& now) {
  Look look{.farm = store_.farm(), .device = store_.device(), .now = now, .labels = parts_.labels};
  look.sticks = sticks_seen_;
  look.bundle = job_.seen();
  look.refused_files = parts_.refused_files;
  look.methods = parts_.methods;
  look.journal_line = journal_line(now);
  look.store_path = parts_.store_path;
  look.log_folder = parts_.log_folder;
  look.fresh_id = parts_.new_id(now.at.time_since_epoch().count());
  look.learned = &learned_;
  look.guide = &guide_;
  look.taken_in = taken_in_;
  look.paper_line = paper_line_;
  return look;
}

const Theme& App::current_theme() const {
  const engine::Theme wanted = parts_.theme.value_or(store_.farm().setup.theme);
  return wanted == engine::Theme::Sun ? sun_ : dusk_;
}

// A clock that stands before what was written last is wrong now, or was wrong then. Walks do not
// need it (their timers run on the boot clock); the log and the register do.
std::string App::clock_line(const engine::Stamp& now) const {
  const auto& log = store_.farm().log;
  if (log.empty() || views_.screen == ScreenName::Walk) return {};
  const engine::Stamp& last = log.back().event.stamp;
  if (now.at + kClockGrace >= last.at) return {};
  return fmt::format(
      "The tablet's clock is behind: the last entry was made on {} at {}. Set the clock.",
      engine::iso_date(engine::local_date(last)), engine::clock_time(last));
}

std::string App::journal_line(const engine::Stamp& now) const {
  if (!store_.damage().empty()) return store_.damage();
  if (!store_.journal().writable().ok()) return store_.journal().writable().message();
  if (store_.journal().ballast_spent())
    return "The tablet's disk is full. Taps are still saved: end the walk, then free some space.";
  return clock_line(now);
}

void App::carry_out(const Ask& ask, const engine::Stamp& now) {
  if (const auto* body = std::get_if<engine::Body>(&ask)) take(*body, now);
  if (const auto* wanted = std::get_if<WriteBundle>(&ask)) write(*wanted, now);
  if (const auto* stick = std::get_if<ReleaseStick>(&ask)) job_.release(stick->path);
  if (const auto* all = std::get_if<Entries>(&ask)) take_all(*all, now);
  if (const auto* bundles = std::get_if<TakeIn>(&ask)) take_in(*bundles);
  if (const auto* paper = std::get_if<WritePaper>(&ask)) write_paper(*paper, now);
}

// A name for a file: what a stick's file system or a shell might trip over becomes a stroke.
std::string App::file_name(const WritePaper& wanted) const {
  std::string name = wanted.what == WritePaper::What::Tags ? "duskwalk-tags" : "duskwalk-register";
  const auto yard =
      wanted.query.yard ? store_.farm().yards.find(*wanted.query.yard) : store_.farm().yards.end();
  if (yard == store_.farm().yards.end()) return name + ".pdf";
  name += "-";
  for (const char c : yard->second.name)
    name += std::isalnum(static_cast<unsigned char>(c)) != 0 ? c : '-';
  return name + ".pdf";
}

void App::write_paper(const WritePaper& wanted, const engine::Stamp& now) {
  const engine::Farm& farm = store_.farm();
  const auto hash = store_.journal().last(engine::text(store_.device())).hash;
  const std::string bytes =
      wanted.what == WritePaper::What::Tags
          ? storage::tags_pdf(farm, wanted.query.yard, now)
          : storage::register_pdf(engine::register_rows(farm, wanted.query),
                                  storage::head_of(farm, wanted.query, storage::hex(hash)));
  if (bytes.empty()) {
    problem_ = "The PDF could not be made.";
    return;
  }
  std::error_code ignored;  // write_whole_file says what is wrong with the folder
  if (wanted.folder == parts_.log_folder)
    std::filesystem::create_directories(wanted.folder, ignored);
  const std::string name = file_name(wanted);
  const engine::Status saved = storage::write_whole_file(wanted.folder + "/" + name, bytes);
  if (!saved.ok()) problem_ = saved.message();
  paper_line_ = saved.ok() ? "Written: " + name : "";
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
  const auto colony = engine::colony_of_tag(line);
  if (!colony || jump_to(store_.farm(), store_.device(), views_, *colony)) return;
  problem_title_ = "Not known here";
  problem_ = "This tag is of a colony that is lost or was entered on another tablet.";
}

// All or none: one of them that cannot be leaves the journal as it was.
void App::take_all(const Entries& wanted, const engine::Stamp& now) {
  const auto events = store_.next_all(now, wanted.bodies);
  if (const engine::Status saved = store_.append_all(events); !saved.ok())
    problem_ = saved.message();
}

// What the bundles below the folder bring; what cannot be taken is named, the rest is in.
void App::take_in(const TakeIn& wanted) {
  taken_in_ = {.folder = wanted.folder};
  auto intake = storage::read_bundles({wanted.folder});
  const bool nothing = intake.ok() && intake.value().bundles == 0;
  if (nothing) {
    taken_in_.failed = true;
    taken_in_.lines = {"There is no bundle here: it is a folder with bagit.txt in it."};
    return;
  }
  auto merged = intake.ok() ? store_.merge(std::move(intake.value().events))
                            : engine::Result<storage::Merged>(intake.status());
  if (!merged.ok()) {
    taken_in_.failed = true;
    taken_in_.lines = {merged.status().message()};
    return;
  }
  taken_in_.bundles = intake.value().bundles;
  taken_in_.whole = intake.value().whole;
  taken_in_.added = merged.value().added;
  taken_in_.known = merged.value().known;
  taken_in_.lines = std::move(intake.value().lines);
  for (std::string& line : merged.value().lines) taken_in_.lines.push_back(std::move(line));
}

void App::take(const engine::Body& body, const engine::Stamp& now) {
  const engine::Event event = store_.next(now, body);
  if (const engine::Refusal why = engine::why_not(store_.farm(), event);
      why != engine::Refusal::None) {
    problem_ = engine::sentence(why);
    return;
  }
  if (const engine::Status saved = store_.append(event); !saved.ok()) problem_ = saved.message();
}

// Where to, as it is now: a stick may have gone since the screen was drawn.
engine::Result<storage::BagRequest> App::request_for(const WriteBundle& wanted) const {
  storage::BagRequest request;
  request.parent = wanted.folder;
  const auto stick = std::find_if(sticks_.begin(), sticks_.end(),
                                  [&](const auto& s) { return s.path == wanted.folder; });
  if (stick != sticks_.end()) {
    request.medium = stick->medium;
    request.device = stick->device;
  } else if (wanted.stick) {
    return {engine::Code::NotFound, "The stick is out. Put it back or choose another place."};
  } else if (wanted.folder == parts_.log_folder) {
    std::error_code ignored;  // write_bag says what is wrong with the folder
    std::filesystem::create_directories(wanted.folder, ignored);
  }
  return request;
}

void App::write(const WriteBundle& wanted, const engine::Stamp& now) {
  auto place = request_for(wanted);
  if (!place.ok()) return job_.fail(place.status().message(), wanted.folder);
  storage::BagRequest request = std::move(place).value();
  std::vector<storage::Sealed> records;
  const engine::Status read =
      store_.journal().replay([&](const storage::Sealed& s) { records.push_back(s); });
  if (!read.ok()) return job_.fail(read.message(), wanted.folder);
  request.device_short = engine::short_device(store_.device());
  request.day = engine::iso_date(wanted.day.value_or(engine::local_date(now)));
  request.bagging_date = engine::iso_date(engine::local_date(now));
  for (auto& [path, bytes] : storage::payload_of_day(store_.farm(), records, wanted.day))
    request.payload.push_back({path, std::move(bytes)});
  job_.start(std::move(request), store_.farm().log.size());
}

void App::set_sticks(std::vector<storage::Stick> sticks) {
  sticks_ = std::move(sticks);
  sticks_seen_.clear();
  for (const storage::Stick& stick : sticks_) sticks_seen_.push_back(seen(stick));
}

bool App::alarm_wanted(const engine::Stamp& now) {
  const engine::Farm& farm = store_.farm();
  const engine::Walk* walk = engine::walk_under_way(farm, store_.device());
  const engine::Lead* led = walk ? guide_.of(farm, *walk, learned_.of(farm).dwell, now) : nullptr;
  return ui::alarm_wanted(alarm_, due_timers(farm, store_.device(), now, led), now.since_boot);
}

std::optional<engine::Ms> App::next_frame_in(const engine::Stamp& now) const {
  std::optional<engine::Ms> soonest;
  const auto want = [&](engine::Ms ms) {
    if (!soonest || ms < *soonest) soonest = ms;
  };
  if (touch_.wake()) want(engine::Ms{*touch_.wake()});
  if (job_.running()) want(engine::Ms{250});
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
