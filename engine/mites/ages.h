// engine/mites/ages.h -- lists that have one number for each day of a cell's age.
#pragma once
#include <cstddef>
#include <numeric>
#include <vector>

namespace engine::mites {

inline std::size_t index(int age) { return static_cast<std::size_t>(age); }

inline double sum(const std::vector<double>& list) {
  return std::accumulate(list.begin(), list.end(), 0.0);
}

}  // namespace engine::mites
