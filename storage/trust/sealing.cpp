#include "storage/trust/sealing.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sodium.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdlib>
#include <vector>

#include "storage/disk/media_errors.h"
#include "storage/disk/sha256.h"
#include "storage/disk/whole_file.h"

namespace storage {
namespace {

using engine::Code;
using engine::Result;
using engine::Status;

constexpr std::string_view kSealedHead = "duskwalk sealed 1\n";
constexpr std::size_t kPiece = std::size_t{64} << 10;
constexpr std::size_t kMore = crypto_secretstream_xchacha20poly1305_ABYTES;
constexpr std::size_t kSalt = crypto_pwhash_SALTBYTES;
constexpr std::size_t kStreamHead = crypto_secretstream_xchacha20poly1305_HEADERBYTES;
constexpr std::size_t kLongestPassphrase = 1024;
static_assert(kMore == 17 && kSalt == 16 && kStreamHead == 24);

using StreamKey = std::array<unsigned char, crypto_secretstream_xchacha20poly1305_KEYBYTES>;

unsigned char* raw_bytes(char* text) { return reinterpret_cast<unsigned char*>(text); }

std::string number_bytes(std::uint64_t n) {
  std::string bytes;
  for (int i = 0; i < 8; ++i) bytes += static_cast<char>(n >> (8 * i) & 0xFF);
  return bytes;
}

std::uint64_t number_in_bytes(std::string_view bytes) {
  std::uint64_t n = 0;
  for (std::size_t i = 8; i-- > 0;) n = n << 8 | static_cast<unsigned char>(bytes[i]);
  return n;
}

Status not_sealed() { return {Code::BadInput, "this is not sealed, or with another passphrase"}; }
Status changed() { return {Code::Damaged, "this was changed or cut since it was sealed"}; }

Status stretch(const std::string& passphrase, std::string_view salt, const SealCost& cost,
               StreamKey& key) {
  if (sodium_init() < 0) std::abort();
  if (passphrase.size() < kShortestPassphrase)
    return {Code::BadInput,
            fmt::format("the passphrase is too short: at least {} letters", kShortestPassphrase)};
  if (crypto_pwhash(key.data(), key.size(), passphrase.data(), passphrase.size(),
                    reinterpret_cast<const unsigned char*>(salt.data()), cost.passes,
                    static_cast<std::size_t>(cost.memory), crypto_pwhash_ALG_ARGON2ID13) != 0)
    return {Code::Failed,
            fmt::format("there are no {} MiB of memory for the passphrase", cost.memory >> 20)};
  return {};
}

// Of a key that goes out of use; what it opened is read by then.
struct Wiped {
  StreamKey key{};
  crypto_secretstream_xchacha20poly1305_state stream{};
  ~Wiped() {
    sodium_memzero(key.data(), key.size());
    sodium_memzero(&stream, sizeof stream);
  }
};

Result<std::string> read_exactly(const SealRead& read, std::size_t size) {
  std::string bytes(size, '\0');
  const auto got = read(bytes.data(), size);
  if (!got.ok()) return got.status();
  bytes.resize(got.value());
  return bytes;
}

}  // namespace

bool is_sealed(std::string_view first_bytes) { return first_bytes.starts_with(kSealedHead); }

Status seal(const std::string& passphrase, const SealRead& read, const SealWrite& write,
            const SealCost& cost) {
  Wiped use;
  std::string salt(kSalt, '\0'), head(kStreamHead, '\0');
  if (sodium_init() < 0) std::abort();
  randombytes_buf(salt.data(), salt.size());
  if (Status key = stretch(passphrase, salt, cost, use.key); !key.ok()) return key;
  crypto_secretstream_xchacha20poly1305_init_push(&use.stream, raw_bytes(head.data()),
                                                  use.key.data());
  const std::string all_of_head = std::string(kSealedHead) + number_bytes(cost.passes) +
                                  number_bytes(cost.memory) + salt + head;
  Status written = write(all_of_head);
  std::vector<char> plain(kPiece), sealed(kPiece + kMore);
  for (bool last = false; written.ok() && !last;) {
    const auto got = read(plain.data(), plain.size());
    if (!got.ok()) return got.status();
    last = got.value() < plain.size();
    crypto_secretstream_xchacha20poly1305_push(
        &use.stream, raw_bytes(sealed.data()), nullptr, raw_bytes(plain.data()), got.value(),
        reinterpret_cast<const unsigned char*>(all_of_head.data()), all_of_head.size(),
        last ? crypto_secretstream_xchacha20poly1305_TAG_FINAL : 0);
    written = write({sealed.data(), got.value() + kMore});
  }
  sodium_memzero(plain.data(), plain.size());
  return written;
}

Status unseal(const std::string& passphrase, const SealRead& read, const SealWrite& write,
              const SealCost& most) {
  const auto head = read_exactly(read, kSealedHead.size() + 16 + kSalt + kStreamHead);
  if (!head.ok()) return head.status();
  std::string_view rest = head.value();
  if (!is_sealed(rest) || rest.size() < kSealedHead.size() + 16 + kSalt + kStreamHead)
    return not_sealed();
  rest.remove_prefix(kSealedHead.size());
  const SealCost cost{number_in_bytes(rest), number_in_bytes(rest.substr(8))};
  if (cost.passes < crypto_pwhash_OPSLIMIT_MIN || cost.passes > most.passes ||
      cost.memory < crypto_pwhash_MEMLIMIT_MIN || cost.memory > most.memory)
    return not_sealed();
  Wiped use;
  if (Status key = stretch(passphrase, rest.substr(16, kSalt), cost, use.key); !key.ok())
    return key;
  std::string stream_head(rest.substr(16 + kSalt));
  if (crypto_secretstream_xchacha20poly1305_init_pull(&use.stream, raw_bytes(stream_head.data()),
                                                      use.key.data()) != 0)
    return not_sealed();
  std::vector<char> sealed(kPiece + kMore), plain(kPiece);
  for (bool first = true;; first = false) {
    const auto got = read(sealed.data(), sealed.size());
    if (!got.ok()) return got.status();
    unsigned long long size = 0;
    unsigned char tag = 0;
    if (got.value() < kMore ||
        crypto_secretstream_xchacha20poly1305_pull(
            &use.stream, raw_bytes(plain.data()), &size, &tag, raw_bytes(sealed.data()),
            got.value(), reinterpret_cast<const unsigned char*>(head.value().data()),
            head.value().size()) != 0)
      return first ? not_sealed() : changed();
    if (Status written = write({plain.data(), static_cast<std::size_t>(size)}); !written.ok())
      return written;
    if (tag != crypto_secretstream_xchacha20poly1305_TAG_FINAL) continue;
    const auto behind = read(sealed.data(), 1);
    if (!behind.ok()) return behind.status();
    return behind.value() == 0 ? Status{} : changed();
  }
}

namespace {

// A file that is read in pieces.
class Source {
 public:
  explicit Source(const std::string& path)
      : path_(path), fd_(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK)) {}
  ~Source() {
    if (fd_ >= 0) ::close(fd_);
  }
  Source(const Source&) = delete;
  Source& operator=(const Source&) = delete;

  Result<std::size_t> operator()(char* to, std::size_t most) const {
    std::size_t all = 0;
    while (fd_ >= 0 && all < most) {
      const ssize_t got = ::read(fd_, to + all, most - all);
      if (got == 0) return all;
      if (got < 0 && errno == EINTR) continue;
      if (got < 0) return trouble(Medium::Folder, Doing::Reading, errno, path_);
      all += static_cast<std::size_t>(got);
    }
    if (fd_ < 0) return {Code::NotFound, fmt::format("{}: no such file", path_)};
    return all;
  }

 private:
  std::string path_;
  int fd_;
};

SealRead reader(const Source& source) {
  return [&source](char* to, std::size_t most) { return source(to, most); };
}

}  // namespace

Status seal_file(const std::string& from, const std::string& to, const std::string& passphrase,
                 const SealCost& cost) {
  auto part = PartFile::make(to, PartFile::Readers::Owner);
  if (!part.ok()) return part.status();
  Sha256 before, after;
  const Source plain(from);
  const Status sealed = seal(
      passphrase,
      [&](char* bytes, std::size_t most) {
        auto got = plain(bytes, most);
        if (got.ok()) before.add({bytes, got.value()});
        return got;
      },
      [&](std::string_view bytes) { return part.value().write(bytes); }, cost);
  if (!sealed.ok()) return sealed;
  const Source again(part.value().path());
  const Status back = unseal(passphrase, reader(again), [&](std::string_view bytes) {
    after.add(bytes);
    return Status{};
  });
  if (!back.ok() || before.finish() != after.finish())
    return {Code::Damaged, fmt::format("{}: what was written does not read back", to)};
  return part.value().finish(PartFile::Over::Nothing);
}

Status unseal_file(const std::string& from, const std::string& to, const std::string& passphrase) {
  auto part = PartFile::make(to, PartFile::Readers::Owner);
  if (!part.ok()) return part.status();
  const Source sealed(from);
  const Status opened = unseal(passphrase, reader(sealed),
                               [&](std::string_view bytes) { return part.value().write(bytes); });
  if (!opened.ok()) return {opened.code(), fmt::format("{}: {}", from, opened.message())};
  return part.value().finish(PartFile::Over::Nothing);
}

bool is_sealed_file(const std::string& path) {
  std::string head(kSealedHead.size(), '\0');
  const auto got = Source(path)(head.data(), head.size());
  return got.ok() && got.value() == head.size() && is_sealed(head);
}

Result<std::string> read_passphrase(const std::string& path) {
  auto text = read_whole_file(path, kLongestPassphrase);
  if (!text.ok()) return text.status();
  std::string line = text.value().substr(0, text.value().find('\n'));
  if (line.size() >= kShortestPassphrase) return line;
  return {Code::BadInput, fmt::format("{}: the passphrase is too short: at least {} letters", path,
                                      kShortestPassphrase)};
}

}  // namespace storage
