// storage/register/pdf_flow.h -- blocks that follow one another down the sheets, none torn apart.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "storage/register/pdf_paper.h"

namespace storage {

// One thing that stays whole. A block that belongs to a table brings that table's head; the head
// is drawn before its first block and again on top of every sheet that the table goes on to.
struct FlowBlock {
  double height = 0;                 // mm, its space below included
  std::function<void(double)> draw;  // at that height of the sheet
  bool with_next = false;            // a heading: never last on a sheet
  const FlowBlock* head = nullptr;   // must outlive the flow
};

inline constexpr double kSheetEdge = 13, kFootHigh = 11;  // mm
inline constexpr double kBodyWide = kSheetWide - 2 * kSheetEdge;
inline constexpr double kBodyHigh = kSheetHigh - 2 * kSheetEdge - kFootHigh;

// Draws all blocks, those of a table inside of one "Table" element a sheet; `foot` is told each
// sheet's number and how many there are. A block higher than a sheet's body is drawn on a sheet of
// its own and runs over: keep blocks below that.
void flow(Paper& paper, const std::vector<FlowBlock>& blocks,
          const std::function<void(std::size_t sheet, std::size_t of)>& foot);

}  // namespace storage
