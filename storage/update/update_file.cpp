// SPDX-License-Identifier: MIT
#include "storage/update/update_file.h"

#include <fmt/format.h>
#include <sodium.h>

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <cstring>
#include <fstream>
#include <vector>

#include "storage/disk/sha256.h"

namespace storage {
namespace {

using engine::Code;
using engine::Result;
using engine::Status;

constexpr std::size_t kMostHeader = 1024;
constexpr std::uint64_t kMostBytes = std::uint64_t{1} << 40;
constexpr const char* kFormatLine = "duskwalk-update 1";

Status no_update(const std::string& why) {
  return {Code::BadInput, "the file is no update: " + why};
}

template <std::size_t N>
bool read_hex(std::string_view text, std::array<std::uint8_t, N>& out) {
  std::size_t size = 0;
  const char* end = nullptr;
  return text.size() == 2 * N &&
         sodium_hex2bin(out.data(), N, text.data(), text.size(), nullptr, &size, &end) == 0 &&
         size == N && end == text.data() + text.size();
}

template <class Number>
bool read_number(std::string_view text, Number& out) {
  const char* end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, out);
  return read.ec == std::errc{} && read.ptr == end && !text.empty();
}

std::optional<std::vector<unsigned>> numbers_of(std::string_view version) {
  std::vector<unsigned> out;
  for (;;) {
    const std::size_t dot = version.find('.');
    unsigned number = 0;
    if (out.size() == 4 || !read_number(version.substr(0, dot), number)) return std::nullopt;
    out.push_back(number);
    if (dot == std::string_view::npos) return out;
    version.remove_prefix(dot + 1);
  }
}

// Takes the line "name value" off the front; false when another line is there.
bool take(std::string_view& text, std::string_view name, std::string& value) {
  const std::size_t end = text.find('\n');
  const std::string_view line = text.substr(0, end);
  if (end == std::string_view::npos || !line.starts_with(name) || line.size() < name.size() + 2 ||
      line[name.size()] != ' ')
    return false;
  value = line.substr(name.size() + 1);
  text.remove_prefix(end + 1);
  return true;
}

bool is_signed(std::string_view lines, const std::string& signature, const UpdateKey& key) {
  std::array<std::uint8_t, crypto_sign_BYTES> bytes{};
  return sodium_init() >= 0 && read_hex(signature, bytes) &&
         crypto_sign_verify_detached(bytes.data(),
                                     reinterpret_cast<const unsigned char*>(lines.data()),
                                     lines.size(), key.data()) == 0;
}

// From the start up to the empty line, with it.
Result<std::string> header_text(std::ifstream& in) {
  std::string text;
  for (std::string line; text.size() <= kMostHeader && std::getline(in, line);) {
    text += line + "\n";
    if (line.empty()) return text;
  }
  return no_update("it does not begin like one");
}

Status cut_off(std::uint64_t got, const UpdateHeader& header) {
  return {Code::Damaged,
          fmt::format("the update is cut off: {} of {} bytes are there; copy it onto "
                      "the stick again",
                      got, header.bytes)};
}

Status sum_payload(std::ifstream& in, const UpdateHeader& header, const TakePayload& payload) {
  Sha256 sum;
  std::uint64_t left = header.bytes;
  std::vector<char> piece(std::size_t{1} << 20);
  while (left > 0) {
    const auto most = static_cast<std::streamsize>(std::min<std::uint64_t>(left, piece.size()));
    in.read(piece.data(), most);
    const auto got = static_cast<std::size_t>(in.gcount());
    if (got == 0) return cut_off(header.bytes - left, header);
    const std::string_view bytes(piece.data(), got);
    sum.add(bytes);
    left -= got;
    if (!payload) continue;
    if (Status took = payload(bytes); !took.ok()) return took;
  }
  if (in.peek() != std::ifstream::traits_type::eof())
    return no_update("there is more in it than was signed");
  if (hex(sum.finish()) == header.sha256) return {};
  return {Code::Damaged, "the update is damaged: its bytes are not those that were signed"};
}

}  // namespace

std::optional<UpdateKey> read_update_key(std::string_view text) {
  if (text.ends_with('\n')) text.remove_suffix(1);
  UpdateKey key{};
  return read_hex(text, key) ? std::optional(key) : std::nullopt;
}

std::optional<int> compare_versions(std::string_view a, std::string_view b) {
  auto left = numbers_of(a), right = numbers_of(b);
  if (!left || !right) return std::nullopt;
  left->resize(4);  // 1.2 is 1.2.0
  right->resize(4);
  if (*left == *right) return 0;
  return *left < *right ? -1 : 1;
}

Result<UpdateHeader> read_update_header(std::string_view text, const UpdateKey& key) {
  std::string_view rest = text;
  if (!rest.starts_with(std::string(kFormatLine) + "\n"))
    return no_update("it does not begin like one");
  rest.remove_prefix(std::strlen(kFormatLine) + 1);
  UpdateHeader header;
  std::string store, bytes, signature;
  const bool lines = take(rest, "version", header.version) &&
                     take(rest, "architecture", header.architecture) &&
                     take(rest, "store", store) && take(rest, "bytes", bytes) &&
                     take(rest, "sha256", header.sha256);
  const std::string_view signed_lines = text.substr(0, text.size() - rest.size());
  if (!lines || !take(rest, "signature", signature) || rest != "\n")
    return no_update("its first lines are not as they must be");
  if (!is_signed(signed_lines, signature, key))
    return Status{Code::Damaged,
                  "the update is not signed by those who made this tablet's system: do not use it"};
  Hash sum{};
  if (!numbers_of(header.version) || !read_number(store, header.store) ||
      !read_number(bytes, header.bytes) || header.bytes > kMostBytes ||
      !from_hex(header.sha256, sum))
    return no_update("its version, store, bytes or sha256 is no such thing");
  return header;
}

Status may_replace(const UpdateHeader& update, const RunningSystem& running) {
  if (update.architecture != running.architecture)
    return {Code::BadInput, fmt::format("the update is for {}; this tablet is {}",
                                        update.architecture, running.architecture)};
  const std::optional<int> order = compare_versions(update.version, running.version);
  if (!order || *order <= 0)
    return {Code::BadInput, fmt::format("the update is version {}, no later than the {} that runs",
                                        update.version, running.version)};
  if (update.store < running.store)
    return {Code::BadInput, fmt::format("the update reads stores of format {}, this tablet's is {}",
                                        update.store, running.store)};
  return {};
}

Result<UpdateHeader> check_update(const std::string& file, const UpdateKey& key,
                                  const RunningSystem& running, const TakePayload& payload) {
  std::ifstream in(file, std::ios::binary);
  if (!in)
    return Status{Code::NotFound,
                  fmt::format("{}: cannot be read: {}", file, std::strerror(errno))};
  const Result<std::string> text = header_text(in);
  if (!text.ok()) return text.status();
  Result<UpdateHeader> header = read_update_header(text.value(), key);
  if (!header.ok()) return header;
  if (Status may = may_replace(header.value(), running); !may.ok()) return may;
  if (Status whole = sum_payload(in, header.value(), payload); !whole.ok()) return whole;
  return header;
}

}  // namespace storage
