#include "storage/store/checkpoint.h"

#include <cstring>
#include <fstream>
#include <future>
#include <new>

#include "engine/farm/fold.h"
#include "engine/farm/packed_state.h"
#include "storage/disk/summed_file.h"
#include "storage/disk/threads.h"
#include "storage/disk/vfs_file.h"
#include "storage/journal/store_probe.h"

namespace storage {
namespace {

constexpr std::string_view kFormat = "duskwalk checkpoint 5\n";
// Entries behind the kept state: they are folded at opening, and a strike of them is quick then.
constexpr std::size_t kEndEnough = 2000;

std::string bytes_of(const std::vector<engine::UuidBytes>& ids) {
  std::string bytes;
  bytes.reserve(ids.size() * sizeof(engine::UuidBytes));
  for (const auto& id : ids) bytes.append(reinterpret_cast<const char*>(id.data()), id.size());
  return bytes;
}

std::string bytes_of(const std::vector<engine::SharedText>& texts) {
  std::string bytes;
  for (const engine::SharedText& text : texts) {
    const std::uint64_t size = text.str().size();
    bytes.append(reinterpret_cast<const char*>(&size), sizeof size);
    bytes += text.str();
  }
  return bytes;
}

bool to_ids(std::string_view bytes, std::vector<engine::UuidBytes>& ids) {
  ids.resize(bytes.size() / sizeof(engine::UuidBytes));
  for (auto& id : ids) {
    std::memcpy(id.data(), bytes.data(), id.size());
    bytes.remove_prefix(id.size());
  }
  return bytes.empty();
}

bool to_texts(std::string_view bytes, std::vector<engine::SharedText>& texts) {
  while (!bytes.empty()) {
    std::uint64_t size = 0;
    if (bytes.size() < sizeof size) return false;
    std::memcpy(&size, bytes.data(), sizeof size);
    bytes.remove_prefix(sizeof size);
    if (size > bytes.size()) return false;
    texts.emplace_back(std::string(bytes.substr(0, size)));
    bytes.remove_prefix(size);
  }
  return true;
}

void write_words(SummedWriter& out, const engine::PackWords& words) {
  out.section(bytes_of(words.ids));
  out.section(bytes_of(words.texts));
}

bool read_words(SummedReader& in, engine::PackWords& words) {
  return to_ids(in.section(), words.ids) && to_texts(in.section(), words.texts) && !in.failed();
}

void write_page(SummedWriter& out, const engine::PackedPage& page) {
  write_words(out, page.words);
  out.section(page.bytes);
  out.section({reinterpret_cast<const char*>(page.at.data()), page.at.size() * sizeof page.at[0]});
  out.section({reinterpret_cast<const char*>(page.kinds.data()), page.kinds.size()});
}

std::shared_ptr<const engine::PackedPage> read_page(SummedReader& in) {
  auto page = std::make_shared<engine::PackedPage>();
  if (!read_words(in, page->words)) return nullptr;
  page->bytes = in.section();
  const std::string at = in.section(), kinds = in.section();
  page->at.resize(at.size() / sizeof page->at[0]);
  if (!page->at.empty())  // memcpy must not be given nullptr
    std::memcpy(page->at.data(), at.data(), page->at.size() * sizeof page->at[0]);
  page->kinds.assign(kinds.begin(), kinds.end());
  return in.failed() || page->kinds.size() != page->at.size() ? nullptr : page;
}

void pack_marks(engine::Packer& into, const engine::Log& log) {
  const auto marked = log.marked();
  into.add(marked);
  for (const std::size_t place : marked) {
    const engine::Entry entry = log.copy(place);
    into.add(entry.struck.has_value());
    if (entry.struck) into.all(entry.struck->by, entry.struck->reason, entry.struck->at);
    into.add(entry.fallen);
  }
}

bool unpack_marks(engine::Unpacker& from, engine::Log& log) {
  std::vector<std::size_t> marked;
  from.get(marked);
  for (const std::size_t place : marked) {
    if (place >= log.size() || from.failed()) return false;
    if (from.flag()) {
      engine::Struck struck;
      from.all(struck.by, struck.reason, struck.at);
      log.set_struck(place, std::move(struck));
    }
    engine::Refusal fallen = engine::Refusal::None;
    from.get(fallen);
    log.set_fallen(place, fallen);
  }
  (void)engine::mark_joins(log);
  return !from.failed();
}

// Some way before the end, so that strikes of the last entries stay quick after opening.
engine::Snapshot kept_snapshot(const engine::Farm& farm) {
  for (auto snapshot = farm.snapshots.rbegin(); snapshot != farm.snapshots.rend(); ++snapshot)
    if (snapshot->entries + kEndEnough <= farm.log.size()) return *snapshot;
  return {farm.log.size(), std::make_shared<const engine::FarmState>(farm)};
}

void write_packed(SummedWriter& out, const engine::PackWords& words, const engine::Packer& packed) {
  write_words(out, words);
  out.section(packed.bytes());
}

// After the program's identity and what it stands on: the state at a snapshot, which is the most
// work to read and so comes first; pages of the log; numbers, clocks and marks.
void write_farm(SummedWriter& out, const Checkpoint& c) {
  const engine::Snapshot snapshot = kept_snapshot(c.farm);
  engine::PackWords state_words;
  engine::Packer state(state_words);
  engine::pack(*snapshot.state, state);
  write_packed(out, state_words, state);
  const auto pages = c.farm.log.pages();
  const std::uint64_t count = pages.size();
  out.section({reinterpret_cast<const char*>(&count), sizeof count});
  for (const auto& page : pages) write_page(out, *page);
  engine::PackWords words;
  engine::Packer rest(words);
  rest.all(c.farm.last_seq, c.farm.branches, c.clocks, snapshot.entries);
  pack_marks(rest, c.farm.log);
  write_packed(out, words, rest);
}

// nullptr: it is none.
using State = std::shared_ptr<const engine::FarmState>;

std::future<State> start_on_state(SummedReader& in) {
  engine::PackWords words;
  if (!read_words(in, words)) words = {};
  std::string bytes = in.section();
  return std::async(kWhereThereIsRoom,
                    [words = std::move(words), bytes = std::move(bytes)]() -> State {
                      engine::Unpacker from(bytes, words);
                      auto state = std::make_shared<engine::FarmState>();
                      return engine::unpack(from, *state) && from.at_end() ? state : nullptr;
                    });
}

bool read_log(SummedReader& in, engine::Log& log) {
  const std::string count_bytes = in.section();
  std::uint64_t count = 0;
  if (count_bytes.size() != sizeof count) return false;
  std::memcpy(&count, count_bytes.data(), sizeof count);
  std::vector<std::shared_ptr<const engine::PackedPage>> pages;
  for (; count > 0; --count) {
    auto page = read_page(in);
    if (!page) return false;
    pages.push_back(std::move(page));
  }
  return log.take_pages(std::move(pages));
}

bool read_rest(SummedReader& in, Checkpoint& c, std::size_t& entries) {
  engine::PackWords words;
  if (!read_words(in, words)) return false;
  const std::string bytes = in.section();
  engine::Unpacker rest(bytes, words);
  rest.all(c.farm.last_seq, c.farm.branches, c.clocks, entries);
  return unpack_marks(rest, c.farm.log) && rest.at_end() && entries <= c.farm.log.size();
}

// All but the last entries' folding.
bool read_farm(SummedReader& in, Checkpoint& c) {
  std::future<State> state = start_on_state(in);
  engine::Snapshot snapshot;
  const bool read = read_log(in, c.farm.log) && read_rest(in, c, snapshot.entries);
  snapshot.state = state.get();
  if (!read || !snapshot.state) return false;
  c.farm.snapshots = {std::move(snapshot)};
  return true;
}

}  // namespace

std::string checkpoint_path(const std::string& store_path) { return store_path + ".checkpoint"; }

std::string program_identity() {
  std::ifstream program("/proc/self/exe", std::ios::binary);
  if (!program) return {};
  std::string piece(std::size_t{1} << 20, '\0');
  FileSum sum;
  while (program.read(piece.data(), static_cast<std::streamsize>(piece.size())) ||
         program.gcount() > 0)
    sum.add(std::string_view(piece).substr(0, static_cast<std::size_t>(program.gcount())));
  return program.bad() ? std::string{} : sum.finish();
}

std::optional<Checkpoint> read_checkpoint(const std::string& vfs, const std::string& store_path) {
  const auto file = VfsFile::open(vfs, checkpoint_path(store_path), VfsKind::Side, FileUse::Read);
  if (!file.ok()) return std::nullopt;
  SummedReader in(file.value(), kFormat);
  const std::string identity = in.raw(FileSum::kBytes);
  if (identity.empty() || identity != program_identity()) return std::nullopt;
  const auto stands_on = parse_tip(in.section());
  Checkpoint c;
  if (!stands_on || !read_farm(in, c)) return std::nullopt;
  c.proven = {*stands_on, in.sum(), in.seal()};
  return c;
}

bool complete(Checkpoint& c) {
  try {
    c.farm = engine::fold_again(std::move(c.farm), c.farm.log.size());
    return true;
  } catch (const std::bad_alloc&) {
    throw;
  } catch (const std::exception&) {
    return false;  // the replay of everything finds out which entry it is
  }
}

bool write_checkpoint(const std::string& vfs, const std::string& store_path, const Checkpoint& c,
                      const std::string& secret) {
  const std::string identity = program_identity();
  if (identity.empty()) return false;
  auto file = VfsFile::open(vfs, checkpoint_path(store_path), VfsKind::Side, FileUse::Create);
  if (!file.ok()) return false;
  SummedWriter out(file.value(), kFormat);
  out.raw(identity);
  out.section(to_text(c.proven.tip));
  write_farm(out, c);
  return out.finish(secret);
}

}  // namespace storage
