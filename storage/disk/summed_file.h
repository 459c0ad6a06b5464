// storage/disk/summed_file.h -- a file of sections under one sum: what was not written whole and by
// this format is noticed before anything of it is used. Inside storage/ only.
//
// The file: a name of the format, the seal, then raw bytes and sections, each its length in eight
// bytes and its bytes. The seal is the sum of all that follows it, summed once more with a secret:
// whoever does not know that cannot change the file and seal it anew. Both go through the file
// once, in large pieces; the secret is needed only at the end.
#pragma once
#include <sodium.h>

#include <cstdint>
#include <string>
#include <string_view>

#include "storage/disk/vfs_file.h"

namespace storage {

// BLAKE2b (RFC 7693), by libsodium: several times as quick here as SHA-256.
class FileSum {
 public:
  static constexpr std::size_t kBytes = 32;

  FileSum() { crypto_generichash_init(&state_, nullptr, 0, kBytes); }
  void add(std::string_view bytes);
  [[nodiscard]] std::string finish();

 private:
  crypto_generichash_state state_;
};

// The seal of a sum. `secret`: kSecretBytes.
inline constexpr std::size_t kSecretBytes = 32;
[[nodiscard]] std::string seal_of(const std::string& sum, const std::string& secret);

class SummedWriter {
 public:
  // The name is written by finish(): until then the file is none of its format.
  SummedWriter(VfsFile& file, std::string_view format);

  void raw(std::string_view bytes);
  void section(std::string_view bytes);
  [[nodiscard]] bool finish(const std::string& secret);  // false: not all could be written

 private:
  void flush();

  VfsFile& file_;
  std::string format_;
  std::int64_t at_;
  std::string pending_;
  FileSum sum_;
  bool ok_ = true;
};

class SummedReader {
 public:
  SummedReader(const VfsFile& file, std::string_view format);

  // Empty, and failed() from then on: the file is of another format, or has not so much.
  std::string raw(std::size_t bytes);
  std::string section();
  [[nodiscard]] bool failed() const { return failed_; }
  // After the last: the sum of all that was given out, and the seal that the file has. They belong
  // together when nothing failed and seal_of(sum, secret) is the seal. What lies behind is the end
  // of a longer file that was written over.
  [[nodiscard]] std::string sum() { return sum_.finish(); }
  [[nodiscard]] const std::string& seal() const { return seal_; }

 private:
  bool read_on();

  const VfsFile& file_;
  std::int64_t at_ = 0, left_;  // of the file; not yet given out
  std::string seal_;
  std::string piece_;
  std::string_view ahead_;  // of piece_
  FileSum sum_;
  bool failed_ = false;
};

}  // namespace storage
