#include "storage/trust/pairing_qr.h"

#include <qrencode.h>

#include <memory>

namespace storage {
namespace {

struct FreeQr {
  void operator()(QRcode* code) const { QRcode_free(code); }
};

constexpr int kQuiet = 4;  // modules around a code, ISO/IEC 18004, 5.3.8

bool is_light(const std::vector<std::vector<bool>>& dark, int row, int column) {
  const int size = static_cast<int>(dark.size());
  if (row < 0 || column < 0 || row >= size || column >= size) return true;
  return !dark[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)];
}

const char* half_blocks(bool upper, bool lower) {
  if (upper && lower) return "\u2588";
  if (upper) return "\u2580";
  return lower ? "\u2584" : " ";
}

}  // namespace

std::vector<std::vector<bool>> qr_modules(const std::string& text) {
  const std::unique_ptr<QRcode, FreeQr> code(
      QRcode_encodeString(text.c_str(), 0, QR_ECLEVEL_M, QR_MODE_8, 1));
  if (!code) return {};
  const auto width = static_cast<std::size_t>(code->width);
  std::vector<std::vector<bool>> dark(width, std::vector<bool>(width));
  for (std::size_t row = 0; row < width; ++row)
    for (std::size_t column = 0; column < width; ++column)
      dark[row][column] = (code->data[row * width + column] & 1) != 0;
  return dark;
}

std::string qr_for_terminal(const std::string& text) {
  const auto dark = qr_modules(text);
  const int size = static_cast<int>(dark.size());
  std::string lines;
  for (int row = -kQuiet; row < size + kQuiet; row += 2) {
    for (int column = -kQuiet; column < size + kQuiet; ++column)
      lines += half_blocks(is_light(dark, row, column), is_light(dark, row + 1, column));
    lines += '\n';
  }
  return lines;
}

}  // namespace storage
