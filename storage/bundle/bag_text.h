// storage/bundle/bag_text.h -- the text files of a bag (BagIt, RFC 8493), as text only: no file is
// touched.
//
// Writing gives the same bytes for the same input on every machine (LF line ends, sorted paths).
// Reading takes what a stranger may have written: LF, CRLF or CR line ends, bounded lines, bounded
// counts; what is wrong comes back as lines of text, never as a crash.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "storage/disk/sha256.h"

namespace storage {

constexpr std::size_t kMostLine = 4096;          // bytes of one line of a tag file
constexpr std::size_t kMostTagFile = 16u << 20;  // bytes of one tag file
constexpr std::size_t kMostBagFiles = 20'000;    // files in one bag
constexpr std::size_t kMostProblems = 50;        // lines kept; the rest are counted

// One file of a bag; paths as in the manifest, payload ones begin with "data/".
struct BagFile {
  std::string path;
  std::uint64_t bytes = 0;
  Hash hash{};
};

using Tags = std::vector<std::pair<std::string, std::string>>;  // label and value, in order

// Lines about what is wrong; remembers the first kMostProblems and counts the rest.
class Problems {
 public:
  void add(std::string line);
  [[nodiscard]] bool none() const { return count_ == 0; }
  [[nodiscard]] std::size_t count() const { return count_; }
  [[nodiscard]] const std::vector<std::string>& lines() const { return lines_; }

 private:
  std::vector<std::string> lines_;
  std::size_t count_ = 0;
};

[[nodiscard]] std::string bag_declaration();  // bagit.txt
[[nodiscard]] std::string manifest_text(const std::vector<BagFile>& files);
[[nodiscard]] std::string oxum(std::uint64_t bytes, std::size_t files);  // "279164.198"
[[nodiscard]] std::string info_text(const Tags& tags);                   // bag-info.txt

// Why a tag cannot stand in bag-info.txt, or an empty text.
[[nodiscard]] std::string why_not_tag(std::string_view label, std::string_view value);

// What is wrong with bagit.txt, or an empty text.
[[nodiscard]] std::string why_not_declaration(std::string_view text);

// Entries whose path stays inside the bag; every other line becomes a problem that names `file`.
// `bytes` of the entries is 0: a manifest does not say it.
[[nodiscard]] std::vector<BagFile> parse_manifest(const std::string& file, std::string_view text,
                                                  Problems& problems);
// Continued lines (RFC 8493 section 2.2.2) are joined with one space.
[[nodiscard]] Tags parse_info(std::string_view text, Problems& problems);

// "bytes.files" of a Payload-Oxum, or nothing when it is not two plain numbers.
[[nodiscard]] std::optional<std::pair<std::uint64_t, std::uint64_t>> parse_oxum(
    std::string_view text);

}  // namespace storage
