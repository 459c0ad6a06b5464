#include "storage/disk/summed_file.h"

#include <cstring>

namespace storage {
namespace {

constexpr std::size_t kPiece = std::size_t{1} << 20;  // of the file, at once

}  // namespace

void FileSum::add(std::string_view bytes) {
  crypto_generichash_update(&state_, reinterpret_cast<const unsigned char*>(bytes.data()),
                            bytes.size());
}

std::string FileSum::finish() {
  std::string sum(kBytes, '\0');
  crypto_generichash_final(&state_, reinterpret_cast<unsigned char*>(sum.data()), kBytes);
  return sum;
}

std::string seal_of(const std::string& sum, const std::string& secret) {
  std::string seal(FileSum::kBytes, '\0');
  crypto_generichash(reinterpret_cast<unsigned char*>(seal.data()), seal.size(),
                     reinterpret_cast<const unsigned char*>(sum.data()), sum.size(),
                     reinterpret_cast<const unsigned char*>(secret.data()), secret.size());
  return seal;
}

SummedWriter::SummedWriter(VfsFile& file, std::string_view format)
    : file_(file),
      format_(format),
      at_(static_cast<std::int64_t>(format.size() + FileSum::kBytes)),
      ok_(file.write(0, std::string(format.size(), ' '))) {}

void SummedWriter::raw(std::string_view bytes) {
  sum_.add(bytes);
  pending_ += bytes;
  if (pending_.size() >= kPiece) flush();
}

void SummedWriter::section(std::string_view bytes) {
  const std::uint64_t size = bytes.size();
  char length[sizeof size];
  std::memcpy(length, &size, sizeof size);
  raw({length, sizeof length});
  raw(bytes);
}

bool SummedWriter::finish(const std::string& secret) {
  flush();
  return ok_ && file_.write(0, format_ + seal_of(sum_.finish(), secret));
}

void SummedWriter::flush() {
  ok_ = ok_ && file_.write(at_, pending_);
  at_ += static_cast<std::int64_t>(pending_.size());
  pending_.clear();
}

SummedReader::SummedReader(const VfsFile& file, std::string_view format)
    : file_(file), left_(file.size()) {
  const std::string front = file.read(0, format.size() + FileSum::kBytes);
  failed_ = front.size() != format.size() + FileSum::kBytes || !front.starts_with(format);
  if (failed_) return;
  seal_ = front.substr(format.size());
  at_ = static_cast<std::int64_t>(front.size());
  left_ -= at_;
}

std::string SummedReader::raw(std::size_t bytes) {
  std::string piece;
  failed_ = failed_ || static_cast<std::int64_t>(bytes) > left_;
  if (failed_) return piece;
  left_ -= static_cast<std::int64_t>(bytes);
  piece.reserve(bytes);
  while (piece.size() < bytes && (!ahead_.empty() || read_on())) {
    const std::string_view some = ahead_.substr(0, bytes - piece.size());
    piece += some;
    ahead_.remove_prefix(some.size());
  }
  failed_ = piece.size() != bytes;
  sum_.add(piece);
  return piece;
}

std::string SummedReader::section() {
  const std::string length = raw(sizeof(std::uint64_t));
  std::uint64_t size = 0;
  if (length.size() == sizeof size) std::memcpy(&size, length.data(), sizeof size);
  if (size > static_cast<std::uint64_t>(left_)) failed_ = true;
  return failed_ ? std::string{} : raw(size);
}

bool SummedReader::read_on() {
  piece_ = file_.read(at_, kPiece);
  at_ += static_cast<std::int64_t>(piece_.size());
  ahead_ = piece_;
  return !piece_.empty();
}

}  // namespace storage
