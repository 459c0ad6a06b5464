#include "storage/register/pdf_flow.h"

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

}  // namespace

void flow(Paper& paper, const std::vector<FlowBlock>& blocks,
          const std::function<void(std::size_t, std::size_t)>& foot) {
  const std::vector<Sheet> sheets = place(blocks);
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    for (const Placed& placed : sheets[i]) placed.block->draw(placed.y);
    foot(i + 1, sheets.size());
    paper.end_page();
  }
}

}  // namespace storage
