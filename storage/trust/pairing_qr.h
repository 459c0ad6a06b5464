// storage/trust/pairing_qr.h -- a QR code (ISO/IEC 18004, by libqrencode) to be shown on a screen.
#pragma once
#include <string>
#include <vector>

namespace storage {

// Rows of modules, each as many as there are rows; true is dark. A quiet zone of four light modules
// must be left around it. Empty: there was no memory for it.
[[nodiscard]] std::vector<std::vector<bool>> qr_modules(const std::string& text);

// With its quiet zone, two rows of modules in a line of half blocks (U+2580): light modules are
// drawn, so that it is a code on the dark ground that terminals have.
[[nodiscard]] std::string qr_for_terminal(const std::string& text);

}  // namespace storage
