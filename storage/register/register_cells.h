// storage/register/register_cells.h -- what stands in each cell of the register, whatever draws it.
//
// Pieces of text with a role; the page (HTML) and the paper (PDF) say what a role looks like.
// Nothing is escaped here.
#pragma once
#include <array>
#include <string>
#include <vector>

#include "engine/register/register.h"
#include "engine/words/words.h"

namespace storage {

struct Piece {
  enum class Role {
    Plain,  // our own words
    Name,   // somebody's words: kept apart from what stands around them
    Mark,   // must be seen: STRUCK, OVER THE LABEL
  };
  std::string text;
  Role role = Role::Plain;
};

struct CellLine {
  std::vector<Piece> pieces;
  bool small = false;
};
using Cell = std::vector<CellLine>;  // empty: nothing is known

// The columns of one row, left to right, without the colony's own.
enum class RegisterColumn { When, Outcome, Product, Dose, Hive, Times, Withdrawal, Entry };
inline constexpr std::array<const char*, 9> kColumnTitles = {"Colony",
                                                             "When",
                                                             "Outcome",
                                                             "Product",
                                                             "Dose",
                                                             "Hive",
                                                             "Times",
                                                             "With\xC2\xAD"
                                                             "drawal",
                                                             "Entry"};  // a soft hyphen
inline constexpr std::size_t kCellsBesideColony = kColumnTitles.size() - 1;
using RegisterCells = std::array<Cell, kCellsBesideColony>;

[[nodiscard]] RegisterCells cells_of(const engine::RegisterRow& row, engine::Units shown);

// A row that does not count is lined through, but for what says so and for its number.
[[nodiscard]] bool lined_through(const engine::RegisterRow& row, RegisterColumn column);

// What is out of the ordinary, for the line below the row; no pieces: nothing is.
[[nodiscard]] CellLine more_of(const engine::RegisterRow& row);

// In SI, and in the keeper's own unit when that is another.
[[nodiscard]] std::string weather_of(const engine::Conditions& c, engine::Units shown);

// The rows of each yard, by name, and in a yard of each colony, as they first come.
using RowRefs = std::vector<const engine::RegisterRow*>;
struct ColonyRows {
  engine::ColonyId colony;
  RowRefs rows;
};
struct YardRows {
  std::string name;
  RowRefs rows;  // all, oldest first
  std::vector<ColonyRows> colonies;
};
[[nodiscard]] std::vector<YardRows> by_yard(const std::vector<engine::RegisterRow>& rows);

// The first row of each walk among them.
[[nodiscard]] RowRefs walks_among(const RowRefs& rows);

// For the head of a report: the colonies of its walks by what each visit came to, as at the walk's
// end (engine/walk/come_back.h), every visit in one number; then other treatments, and how many
// rows are against the label or were struck.
struct RegisterSum {
  std::size_t number = 0;
  const char* what = "";
};
[[nodiscard]] std::vector<RegisterSum> sums_of(const std::vector<engine::RegisterRow>& rows);

}  // namespace storage
