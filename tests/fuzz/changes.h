// tests/fuzz/changes.h -- damage to files as few bytes: a fuzzer that had to carry whole stores
// would hardly move.
#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace fuzz {

// Four bytes a change: the file (modulo their number) and how (its low two bits: set the byte, flip
// a bit, cut the file there, double the piece), two of the place (modulo the size), the value.
void change(std::vector<std::string*> files, std::string_view changes);

}  // namespace fuzz
