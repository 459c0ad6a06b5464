#include "ui/app/copies.h"

#include <fmt/format.h>

#include "engine/words/words.h"
#include "storage/store/repair.h"
#include "ui/app/bundle_job.h"

namespace ui {
namespace {

using State = CopiesSeen::State;

constexpr std::string_view kBegins = "duskwalk-backup-", kLocked = "duskwalk-locked-",
                           kEnds = ".journal";

// The moment first, so that names sort by it; no sign that a stick's file system refuses.
std::string copy_name(std::string_view begins, const storage::Journal& journal,
                      const engine::Stamp& now) {
  std::string clock = engine::clock_time(now);
  std::erase(clock, ':');
  const auto id = engine::uuid_from_text(journal.device());
  const std::string device = id ? engine::short_device(engine::DeviceId{*id}) : std::string("x");
  return fmt::format("{}{}-{}-{}{}", begins, engine::iso_date(engine::local_date(now)), clock,
                     device, kEnds);
}

}  // namespace

bool is_copy_name(std::string_view name) {
  return name.starts_with(kBegins) && name.ends_with(kEnds);
}

void Copies::begin(const storage::Journal& journal, const CopyPlace& place,
                   const engine::Stamp& now) {
  if (running()) return;
  place_ = place;
  name_ = copy_name(kBegins, journal, now);
  auto begun = storage::Backup::begin(journal, place.folder + "/" + name_);
  if (!begun.ok()) return fail(plain_failure(begun.status(), place.medium));
  run_.emplace(std::move(begun).value());
  seen_.state = State::Copying;
  seen_.part = 0;
  seen_.line.clear();
  seen_.name = name_;
}

bool Copies::copy_as_it_is(const storage::Journal& journal, const CopyPlace& place,
                           const engine::Stamp& now) {
  if (running()) return false;
  place_ = place;
  name_ = copy_name(kLocked, journal, now);
  const engine::Status copied = storage::copy_as_it_is(journal.path(), place.folder + "/" + name_);
  if (!copied.ok()) {
    fail(plain_failure(copied, place.medium));
    return false;
  }
  seen_.state = State::Done;
  seen_.line = "As it is, with what stands beside it.";
  seen_.name = name_;
  return true;
}

bool Copies::step() {
  if (!run_) return false;
  const auto done = run_->step();
  if (!done.ok()) {
    run_.reset();
    fail(plain_failure(done.status(), place_.medium));
    return false;
  }
  seen_.part = static_cast<float>(run_->part());
  if (!done.value()) return false;
  run_.reset();
  seen_.state = State::Done;
  seen_.line = "Whole, read back.";
  return true;
}

void Copies::fail(std::string line) {
  seen_.state = State::Failed;
  seen_.name.clear();
  seen_.line = std::move(line);
}

void Copies::add(const std::string& line) { seen_.line += " " + line; }

}  // namespace ui
