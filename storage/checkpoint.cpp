#include "storage/checkpoint.h"

#include <sodium.h>

#include <cstring>

#include "engine/farm/fold.h"
#include "engine/farm/packed_state.h"
#include "storage/store_look.h"
#include "storage/vfs_file.h"

namespace storage {
namespace {

constexpr std::string_view kMagic = "duskwalk checkpoint 1\n";
constexpr std::size_t kSum = 32;
constexpr std::size_t kMostWrite = std::size_t{1} << 20;
constexpr std::size_t kEndEnough = 128;  // entries behind the kept state: a strike of them is quick

// BLAKE2b (RFC 7693), by libsodium: several times as quick here as SHA-256.
class Sum {
 public:
  Sum() { crypto_generichash_init(&state_, nullptr, 0, kSum); }
  void add(std::string_view bytes) {
    crypto_generichash_update(&state_, reinterpret_cast<const unsigned char*>(bytes.data()),
                              bytes.size());
  }
  std::string finish() {
    std::string sum(kSum, '\0');
    crypto_generichash_final(&state_, reinterpret_cast<unsigned char*>(sum.data()), kSum);
    return sum;
  }

 private:
  crypto_generichash_state state_;
};

// The file: magic, sum of all that follows, program identity, then sections, each its length in
// eight bytes and its bytes.
class Writer {
 public:
  explicit Writer(VfsFile& file) : file_(file), at_(kMagic.size() + kSum) {}

  void section(std::string_view bytes) {
    const std::uint64_t size = bytes.size();
    char length[sizeof size];
    std::memcpy(length, &size, sizeof size);
    raw({length, sizeof length});
    raw(bytes);
  }
  void raw(std::string_view bytes) {
    sum_.add(bytes);
    pending_ += bytes;
    if (pending_.size() >= kMostWrite) flush();
  }
  bool finish() {
    flush();
    return ok_ && file_.write(0, std::string(kMagic) + sum_.finish());
  }

 private:
  void flush() {
    ok_ = ok_ && file_.write(at_, pending_);
    at_ += static_cast<std::int64_t>(pending_.size());
    pending_.clear();
  }

  VfsFile& file_;
  std::int64_t at_;
  std::string pending_;
  Sum sum_;
  bool ok_ = true;
};

class Reader {
 public:
  explicit Reader(const VfsFile& file) : file_(file), size_(file.size()) {}

  std::string raw(std::size_t bytes) {
    std::string piece;
    if (at_ + static_cast<std::int64_t>(bytes) <= size_) piece = file_.read(at_, bytes);
    failed_ = failed_ || piece.size() != bytes;
    at_ += static_cast<std::int64_t>(piece.size());
    sum_.add(piece);
    return piece;
  }
  std::string section() {
    const std::string length = raw(sizeof(std::uint64_t));
    std::uint64_t size = 0;
    if (length.size() == sizeof size) std::memcpy(&size, length.data(), sizeof size);
    if (size > static_cast<std::uint64_t>(size_)) failed_ = true;
    return failed_ ? std::string{} : raw(size);
  }
  // What stands before the sum's part.
  std::string front(std::size_t bytes) {
    std::string piece = file_.read(at_, bytes);
    at_ += static_cast<std::int64_t>(bytes);
    return piece;
  }
  std::string sum() { return sum_.finish(); }
  [[nodiscard]] bool failed() const { return failed_; }

 private:
  const VfsFile& file_;
  std::int64_t size_, at_ = 0;
  Sum sum_;
  bool failed_ = false;
};

std::string bytes_of(const std::vector<engine::UuidBytes>& ids) {
  std::string bytes;
  bytes.reserve(ids.size() * sizeof(engine::UuidBytes));
  for (const auto& id : ids) bytes.append(reinterpret_cast<const char*>(id.data()), id.size());
  return bytes;
}

std::string bytes_of(const std::vector<std::string>& texts) {
  std::string bytes;
  for (const std::string& text : texts) {
    const std::uint64_t size = text.size();
    bytes.append(reinterpret_cast<const char*>(&size), sizeof size);
    bytes += text;
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

bool to_texts(std::string_view bytes, std::vector<std::string>& texts) {
  while (!bytes.empty()) {
    std::uint64_t size = 0;
    if (bytes.size() < sizeof size) return false;
    std::memcpy(&size, bytes.data(), sizeof size);
    bytes.remove_prefix(sizeof size);
    if (size > bytes.size()) return false;
    texts.emplace_back(bytes.substr(0, size));
    bytes.remove_prefix(size);
  }
  return true;
}

void write_words(Writer& out, const engine::PackWords& words) {
  out.section(bytes_of(words.ids));
  out.section(bytes_of(words.texts));
}

bool read_words(Reader& in, engine::PackWords& words) {
  return to_ids(in.section(), words.ids) && to_texts(in.section(), words.texts) && !in.failed();
}

void write_page(Writer& out, const engine::PackedPage& page) {
  write_words(out, page.words);
  out.section(page.bytes);
  out.section({reinterpret_cast<const char*>(page.at.data()), page.at.size() * sizeof page.at[0]});
  out.section({reinterpret_cast<const char*>(page.kinds.data()), page.kinds.size()});
}

std::shared_ptr<const engine::PackedPage> read_page(Reader& in) {
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
  return !from.failed();
}

// Some way before the end, so that strikes of the last entries stay quick after opening.
engine::Rung kept_rung(const engine::Farm& farm) {
  for (auto rung = farm.rungs.rbegin(); rung != farm.rungs.rend(); ++rung)
    if (rung->entries + kEndEnough <= farm.log.size()) return *rung;
  return {farm.log.size(), std::make_shared<const engine::FarmState>(farm)};
}

// Pages of the log, then one packed section: numbers, clocks, marks, and the state at a rung.
void write_farm(Writer& out, const Checkpoint& c) {
  const auto pages = c.farm.log.pages();
  const std::uint64_t count = pages.size();
  out.section({reinterpret_cast<const char*>(&count), sizeof count});
  for (const auto& page : pages) write_page(out, *page);
  const engine::Rung rung = kept_rung(c.farm);
  engine::PackWords words;
  engine::Packer rest(words);
  rest.all(c.farm.last_seq, c.farm.branches, c.clocks.all(), rung.entries);
  pack_marks(rest, c.farm.log);
  engine::pack(*rung.state, rest);
  write_words(out, words);
  out.section(rest.bytes());
}

bool read_log(Reader& in, engine::Log& log) {
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

// All but the last entries' folding.
bool read_farm(Reader& in, Checkpoint& c) {
  engine::PackWords words;
  if (!read_log(in, c.farm.log) || !read_words(in, words)) return false;
  const std::string bytes = in.section();
  engine::Unpacker rest(bytes, words);
  std::map<engine::DeviceId, std::int64_t> clocks;
  engine::Rung rung;
  rest.all(c.farm.last_seq, c.farm.branches, clocks, rung.entries);
  c.clocks = engine::Clocks(c.farm.branches);
  for (const auto& [device, clock] : clocks) c.clocks.set(device, clock);
  if (!unpack_marks(rest, c.farm.log)) return false;
  auto state = std::make_shared<engine::FarmState>();
  if (!engine::unpack(rest, *state) || !rest.at_end() || rung.entries > c.farm.log.size())
    return false;
  rung.state = std::move(state);
  c.farm.rungs = {std::move(rung)};
  return true;
}

}  // namespace

std::string checkpoint_path(const std::string& store_path) { return store_path + ".checkpoint"; }

std::string program_identity() {
  const auto program = VfsFile::open("", "/proc/self/exe", VfsKind::Side, FileUse::Read);
  if (!program.ok()) return {};
  Sum sum;
  constexpr std::size_t kPiece = std::size_t{1} << 20;
  for (std::int64_t at = 0; at < program.value().size(); at += kPiece)
    sum.add(program.value().read(at, kPiece));
  return sum.finish();
}

std::optional<Checkpoint> read_checkpoint(const std::string& vfs, const std::string& store_path) {
  const auto file = VfsFile::open(vfs, checkpoint_path(store_path), VfsKind::Side, FileUse::Read);
  if (!file.ok()) return std::nullopt;
  Reader in(file.value());
  const std::string front = in.front(kMagic.size() + kSum);
  if (!std::string_view(front).starts_with(kMagic)) return std::nullopt;
  const std::string identity = in.raw(kSum);
  if (identity.empty() || identity != program_identity()) return std::nullopt;
  const auto stands_on = parse_tip(in.section());
  Checkpoint c;
  if (!stands_on || !read_farm(in, c)) return std::nullopt;
  if (in.sum() != std::string_view(front).substr(kMagic.size())) return std::nullopt;
  c.stands_on = *stands_on;
  c.farm = engine::fold_again(std::move(c.farm), c.farm.log.size());
  return c;
}

bool write_checkpoint(const std::string& vfs, const std::string& store_path, const Checkpoint& c) {
  const std::string identity = program_identity();
  if (identity.empty()) return false;
  auto file = VfsFile::open(vfs, checkpoint_path(store_path), VfsKind::Side, FileUse::Create);
  if (!file.ok() || !file.value().write(0, std::string(kMagic.size(), ' '))) return false;
  Writer out(file.value());
  out.raw(identity);
  out.section(to_text(c.stands_on));
  write_farm(out, c);
  return out.finish();
}

}  // namespace storage
