#include "storage/register/pdf_flow.h"

#include <set>

namespace storage {
namespace {

struct Placed {
  const FlowBlock* block;
  double y;
};
using Sheet = std::vector<Placed>;

// What must fit below `i`: the block, and what it must not be parted from.
double wanted(const std::vector<FlowBlock>& blocks, std::size_t i) {
  double high = blocks[i].height;
  while (blocks[i].with_next && i + 1 < blocks.size()) {
    ++i;
    high += blocks[i].height + (blocks[i].head != nullptr ? blocks[i].head->height : 0);
  }
  return high;
}

std::vector<Sheet> place(const std::vector<FlowBlock>& blocks) {
  std::vector<Sheet> sheets(1);
  double y = 0;
  const FlowBlock* head = nullptr;
  const auto put = [&](const FlowBlock& block) {
    sheets.back().push_back({&block, y + kSheetEdge});
    y += block.height;
  };
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    const FlowBlock& block = blocks[i];
    const bool begins = block.head != nullptr && block.head != head;
    const double extra = begins ? block.head->height : 0;
    const bool turned = y > 0 && y + extra + wanted(blocks, i) > kBodyHigh;
    if (turned) {
      sheets.emplace_back();
      y = 0;
    }
    if (block.head != nullptr && (begins || turned)) put(*block.head);
    head = block.head;
    put(block);
  }
  return sheets;
}

// A table that goes on to another sheet is another one there, with its head.
void draw_sheet(Paper& paper, const Sheet& sheet, const std::set<const FlowBlock*>& heads) {
  bool in_table = false;
  const auto leave_table = [&] {
    if (in_table) paper.end("Table");
    in_table = false;
  };
  for (const Placed& placed : sheet) {
    const bool begins = heads.contains(placed.block);
    if (begins || placed.block->head == nullptr) leave_table();
    if (begins) paper.begin("Table");
    in_table = in_table || begins;
    placed.block->draw(placed.y);
  }
  leave_table();
}

}  // namespace

void flow(Paper& paper, const std::vector<FlowBlock>& blocks,
          const std::function<void(std::size_t, std::size_t)>& foot) {
  const std::vector<Sheet> sheets = place(blocks);
  std::set<const FlowBlock*> heads;
  for (const FlowBlock& block : blocks)
    if (block.head != nullptr) heads.insert(block.head);
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    draw_sheet(paper, sheets[i], heads);
    foot(i + 1, sheets.size());
    paper.end_page();
  }
}

}  // namespace storage
