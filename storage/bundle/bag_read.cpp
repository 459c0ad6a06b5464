#include "storage/bundle/bag_read.h"

#include <vector>

namespace storage {

int read_pieces(Files& files, const std::string& path,
                const std::function<bool(std::string_view)>& take) {
  int fd = -1;
  if (const int err = files.open(path, fd)) return err;
  std::vector<char> buffer(256 * 1024);
  int err = files.drop_cache(fd);
  std::size_t got = 1;
  while (err == 0 && got != 0) {
    err = files.read(fd, buffer.data(), buffer.size(), got);
    if (err == 0 && got != 0 && !take({buffer.data(), got})) break;
  }
  const int closing = files.close(fd);
  return err != 0 ? err : closing;
}

int hash_file(Files& files, const std::string& path, Hash& hash, std::uint64_t& bytes,
              const OnBytes& read) {
  Sha256 sum;
  bytes = 0;
  const int err = read_pieces(files, path, [&](std::string_view piece) {
    sum.add(piece);
    bytes += piece.size();
    if (read) read(piece.size());
    return true;
  });
  hash = sum.finish();
  return err;
}

int read_text(Files& files, const std::string& path, std::size_t most, std::string& text,
              bool& too_big) {
  text.clear();
  const int err = read_pieces(files, path, [&](std::string_view piece) {
    text += piece;
    return text.size() <= most;
  });
  too_big = text.size() > most;
  return err;
}

}  // namespace storage
