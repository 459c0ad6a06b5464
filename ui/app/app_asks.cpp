// What a tap asks for, carried out.
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <utility>

#include "engine/farm/setups.h"
#include "engine/words/words.h"
#include "storage/bundle/bundle_signatures.h"
#include "storage/bundle/day_bundle.h"
#include "storage/disk/whole_file.h"
#include "storage/register/register_files.h"
#include "storage/register/tags_pdf.h"
#include "storage/store/repair.h"
#include "ui/app/app.h"

namespace ui {

void App::carry_out(const Ask& ask, const engine::Stamp& now) {
  std::visit([&](const auto& asked) { carry(asked, now); }, ask);
}

void App::carry(const UseExchange& wanted, const engine::Stamp&) {
  if (const engine::Status kept = exchange_.use(wanted.folder); !kept.ok())
    problem_ = kept.message();
}

void App::carry(const engine::Body& body, const engine::Stamp& now) {
  if (const auto* change = std::get_if<engine::SetupChanged>(&body))
    if (auto bodies = engine::chosen_here(store_.farm(), *change); bodies.size() > 1)
      return carry(Entries{std::move(bodies)}, now);
  const engine::Event event = store_.next(now, body);
  if (const engine::Refusal why = engine::why_not(store_.farm(), event);
      why != engine::Refusal::None) {
    problem_ = engine::sentence(why);
    return;
  }
  if (const engine::Status saved = store_.append(event); !saved.ok()) problem_ = saved.message();
}

// All or none: one of them that cannot be leaves the journal as it was.
void App::carry(const Entries& wanted, const engine::Stamp& now) {
  const auto events = store_.next_all(now, wanted.bodies);
  if (const engine::Status saved = store_.append_all(events); !saved.ok())
    problem_ = saved.message();
}

engine::Result<CopyPlace> App::copy_place(const CopyStore& wanted) const {
  const auto stick = std::find_if(sticks_.begin(), sticks_.end(),
                                  [&](const auto& s) { return s.path == wanted.folder; });
  if (stick != sticks_.end()) return CopyPlace{stick->path, stick->name, stick->medium};
  if (wanted.stick)
    return {engine::Code::NotFound, "The stick is out. Put it back or choose another place."};
  std::error_code ignored;  // the copy says what is wrong with the folder
  std::filesystem::create_directories(wanted.folder, ignored);
  return CopyPlace{wanted.folder, kThisTablet, storage::Medium::Folder};
}

void App::carry(const CopyStore& wanted, const engine::Stamp& now) {
  const auto place = copy_place(wanted);
  if (!place.ok()) return copies_.fail(place.status().message());
  if (!store_.journal().damage()) return copies_.begin(store_.journal(), place.value(), now);
  if (copies_.copy_as_it_is(store_.journal(), place.value(), now)) let_go_of_copy();
}

// Lets go of the stick of a copy that is done, and then says whether it may be pulled.
void App::let_go_of_copy() {
  letting_go_ = copies_.place().medium == storage::Medium::Stick;
  if (letting_go_) job_.release(copies_.place().folder);
  look_at_places();
}

// A part of the copy under way; whether its stick may be pulled is said when it is whole.
void App::go_on_copying() {
  if (letting_go_ && !job_.running()) {
    const BundleSeen released = job_.seen();
    copies_.add(released.state == BundleSeen::State::Safe ? "Safe to pull." : released.line);
    letting_go_ = false;
  }
  if (copies_.step()) let_go_of_copy();
}

void App::carry(const MendStore&, const engine::Stamp& now) {
  looks_.forget_journal();
  const std::string mark = "damaged-" + engine::iso_date(engine::local_date(now));
  const std::string device = engine::uuid_text(parts_.new_id(now.at.time_since_epoch().count()));
  const auto mended = storage::mend(store_, mark, device);
  if (mended.ok()) {
    views_.setup.backups = false;
    views_.screen = ScreenName::Today;
  }
  problem_title_ = mended.ok() ? "The tablet goes on" : "";
  problem_ = mended.ok() ? fmt::format(
                               "{} could be read and are here, under a new tablet id. Now take in "
                               "the newest backup and what other tablets have. The locked store "
                               "is kept: {}",
                               engine::counted(static_cast<std::size_t>(mended.value().entries),
                                               "entry", "entries"),
                               std::filesystem::path(mended.value().kept).filename().string())
                         : mended.status().message();
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

void App::carry(const WritePaper& wanted, const engine::Stamp& now) {
  const engine::Farm& farm = store_.farm();
  book_.read_all(farm);
  const auto hash = store_.journal().last(engine::text(store_.device())).hash;
  const std::string bytes =
      wanted.what == WritePaper::What::Tags
          ? storage::tags_pdf(farm, wanted.query.yard, now)
          : storage::register_pdf(engine::register_rows(farm, book_, wanted.query),
                                  storage::head_of(farm, wanted.query, storage::hex(hash)));
  if (bytes.empty()) {
    problem_ = "The PDF could not be made.";
    return;
  }
  paper_.start([folder = wanted.folder, own = wanted.folder == parts_.log_folder,
                name = file_name(wanted), bytes]() -> engine::Result<std::string> {
    std::error_code ignored;  // write_whole_file says what is wrong with the folder
    if (own) std::filesystem::create_directories(folder, ignored);
    const engine::Status saved = storage::write_whole_file(folder + "/" + name, bytes);
    if (!saved.ok()) return saved;
    return name;
  });
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

void App::carry(const WriteBundle& wanted, const engine::Stamp& now) {
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
  storage::DayBundle bundle =
      storage::bundle_of_day(store_.farm(), records, wanted.day, parts_.methods);
  request.readme = std::move(bundle.readme);
  for (auto& [path, bytes] : bundle.files) request.payload.push_back({path, std::move(bytes)});
  if (std::string text = storage::signatures_of_day(store_, records, wanted.day); !text.empty())
    request.payload.push_back({storage::kSignaturesFile, std::move(text)});
  job_.start(std::move(request), store_.farm().log.size());
}

}  // namespace ui
