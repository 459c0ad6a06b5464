#include <fmt/format.h>

#include <algorithm>
#include <deque>
#include <utility>

#include "storage/register/pdf_flow.h"
#include "storage/register/register_cells.h"
#include "storage/register/register_files.h"
#include "storage/register/register_text.h"

namespace storage {
namespace {

using namespace engine;

constexpr double kBody = 8.5, kSmall = 7.5, kHeading = 12, kTitle = 18;  // points
constexpr double kPad = 1.2;                                             // mm round a cell's text
constexpr double kThin = 0.15, kThick = 0.4;                             // mm

// ---- text ----

std::string markup_of(const Piece& piece) {
  switch (piece.role) {
    case Piece::Role::Name:
      return markup_name(piece.text);
    case Piece::Role::Mark:
      return "<b>" + markup_escaped(piece.text) + "</b>";
    case Piece::Role::Plain:
      break;
  }
  return markup_escaped(piece.text);
}

std::string markup_of(const CellLine& line) {
  std::string out;
  for (const Piece& piece : line.pieces) out += markup_of(piece);
  return line.small && !out.empty() ? "<small>" + out + "</small>" : out;
}

std::string markup_of(const Cell& cell) {
  std::string out;
  for (const CellLine& line : cell) out += (out.empty() ? "" : "\n") + markup_of(line);
  return out;
}

std::string bold(const std::string& markup) { return "<b>" + markup + "</b>"; }

std::string names_below(const std::string& first, const std::string& second) {
  const bool both = !first.empty() && !second.empty();
  return markup_name(first) + (both ? "\n" : "") + markup_name(second);
}

// ---- tables: cells beside each other in columns ----

using Widths = std::vector<double>;  // mm

double cells_high(Paper& paper, const std::vector<std::string>& cells, const Widths& widths) {
  double high = 0;
  for (std::size_t i = 0; i < cells.size(); ++i)
    high = std::max(high, paper.text_height(cells[i], widths[i] - 2 * kPad, kBody));
  return high + 2 * kPad;
}

// An empty cell is an element too: who has the table read aloud must not lose the column.
void draw_cells(Paper& paper, const std::vector<std::string>& cells, const Widths& widths, double y,
                const char* element = "TD") {
  double x = kSheetEdge;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    paper.begin(element);
    paper.text(cells[i], x + kPad, y + kPad, widths[i] - 2 * kPad, kBody);
    paper.end(element);
    x += widths[i];
  }
}

void draw_row(Paper& paper, const std::vector<std::string>& cells, const Widths& widths, double y,
              const char* element = "TD") {
  paper.begin("TR");
  draw_cells(paper, cells, widths, y, element);
  paper.end("TR");
}

class Document {
 public:
  Document(const std::vector<RegisterRow>& rows, const RegisterHead& head)
      : rows_(rows),
        head_(head),
        paper_({"Treatment register, " + scope_of(head), head.exported_by,
                head.as_of.at == Utc{} ? "" : rfc3339(head.as_of)}) {}

  std::string write() {
    add_head();
    add_sums();
    add_caution();
    for (const YardRows& yard : by_yard(rows_)) add_yard(yard);
    if (rows_.empty()) add_text("No treatments in this period.", kBody, 2);
    add_products();
    add_stock();
    add_text("", kSmall, 1);
    add_text(markup_escaped(kRegisterReading), kSmall, 4);
    add_checked_by();
    flow(paper_, blocks_, [&](std::size_t sheet, std::size_t of) { draw_foot(sheet, of); });
    return paper_.finish();
  }

 private:
  void add_text(const std::string& markup, double points, double below, bool with_next = false,
                const char* element = "P");
  void add_heading(const std::string& markup);
  void add_checked_by();
  void add_head();
  void add_sums();
  void add_caution();
  void add_yard(const YardRows& yard);
  void add_walks(const YardRows& yard);
  void add_products();
  void add_lines(const std::vector<std::string>& titles, const Widths& widths,
                 const std::vector<TableLine>& lines);
  void add_stock();
  const FlowBlock* table_head(const std::vector<std::string>& titles, const Widths& widths);
  void add_table_row(const std::vector<std::string>& cells, const Widths& widths,
                     const FlowBlock* head);
  void add_colony(const ColonyRows& colony, const FlowBlock* head);
  FlowBlock row_block(const RegisterRow& row, const std::string& colony);
  void draw_foot(std::size_t sheet, std::size_t of);

  const std::vector<RegisterRow>& rows_;
  const RegisterHead& head_;
  Paper paper_;
  std::vector<FlowBlock> blocks_;
  std::deque<FlowBlock> heads_;
};

void Document::add_text(const std::string& markup, double points, double below, bool with_next,
                        const char* element) {
  const double high = paper_.text_height(markup, kBodyWide, points);
  blocks_.push_back({high + below,
                     [this, markup, points, element](double y) {
                       if (markup.empty()) return;
                       paper_.begin(element);
                       paper_.text(markup, kSheetEdge, y, kBodyWide, points);
                       paper_.end(element);
                     },
                     with_next});
}

// For whoever goes through the paper with the keeper.
void Document::add_checked_by() {
  static constexpr double kHigh = 14, kLabel = 24, kName = 90, kDay = 40;  // mm
  blocks_.push_back({kHigh, [this](double y) {
                       double x = kSheetEdge;
                       paper_.begin("P");
                       for (const auto& [label, wide] :
                            {std::pair("Checked by:", kName), std::pair("Date:", kDay)}) {
                         paper_.text(label, x, y + kHigh / 2, kLabel, kBody);
                         paper_.rule(x + kLabel, y + kHigh - 3, wide, kThin);
                         x += kLabel + wide + 10;
                       }
                       paper_.end("P");
                     }});
}

void Document::add_heading(const std::string& markup) {
  const double high = paper_.text_height(bold(markup), kBodyWide, kHeading);
  constexpr double kAbove = 4, kBelow = 2;
  blocks_.push_back({kAbove + high + kBelow,
                     [this, markup, high](double y) {
                       paper_.begin("H2");
                       paper_.text(bold(markup), kSheetEdge, y + kAbove, kBodyWide, kHeading);
                       paper_.end("H2");
                       paper_.rule(kSheetEdge, y + kAbove + high, kBodyWide, kThick);
                     },
                     true});
}

void Document::add_head() {
  add_text(bold("Treatment register"), kTitle, 1, false, "H1");
  add_text(markup_escaped(scope_of(head_)), kHeading, 3);
  for (const RegisterFact& fact : facts_of(head_))
    add_text(bold(markup_escaped(fact.what) + std::string(":")) + " " + markup_name(fact.value),
             kBody, 1);
}

void Document::add_sums() {
  std::string line;
  for (const RegisterSum& sum : sums_of(rows_))
    line += fmt::format("{}<b>{}</b> {}", line.empty() ? "" : "    ", sum.number, sum.what);
  add_text(line, kBody + 1, 3);
}

void Document::add_caution() {
  const std::string words = bold(kRegisterCautionFirst) + " " + markup_escaped(kRegisterCaution);
  constexpr double kInside = 3;
  const double high = paper_.text_height(words, kBodyWide - 2 * kInside, kBody);
  blocks_.push_back({high + 2 * kInside + 2, [this, words, high](double y) {
                       paper_.frame(kSheetEdge, y, kBodyWide, high + 2 * kInside, kThick);
                       paper_.begin("P");
                       paper_.text(words, kSheetEdge + kInside, y + kInside,
                                   kBodyWide - 2 * kInside, kBody);
                       paper_.end("P");
                     }});
}

const FlowBlock* Document::table_head(const std::vector<std::string>& titles,
                                      const Widths& widths) {
  std::vector<std::string> cells;
  for (const std::string& title : titles) cells.push_back(bold(title));
  const double high = cells_high(paper_, cells, widths);
  heads_.push_back({high, [this, cells, widths, high](double y) {
                      paper_.shade(kSheetEdge, y, kBodyWide, high);
                      paper_.rule(kSheetEdge, y + high - kThick, kBodyWide, kThick);
                      draw_row(paper_, cells, widths, y, "TH");
                    }});
  return &heads_.back();
}

void Document::add_table_row(const std::vector<std::string>& cells, const Widths& widths,
                             const FlowBlock* head) {
  const double high = cells_high(paper_, cells, widths);
  blocks_.push_back({high,
                     [this, cells, widths, high](double y) {
                       draw_row(paper_, cells, widths, y);
                       paper_.rule(kSheetEdge, y + high - kThin, kBodyWide, kThin);
                     },
                     false, head});
}

void Document::add_walks(const YardRows& yard) {
  const RowRefs walks = walks_among(yard.rows);
  if (walks.empty()) return;
  const Widths widths = {22, 55, 68, 54, kBodyWide - 199};
  const FlowBlock* head = table_head(
      {"Walk", "Operator", "Weather at the start", "Reason for treatment", "Label rules"}, widths);
  for (const RegisterRow* r : walks)
    add_table_row({iso_date(r->date), names_below(r->operator_name, r->operator_address),
                   markup_escaped(r->weather ? weather_of(*r->weather, head_.shown) : ""),
                   markup_name(r->reason), markup_name(r->label_product)},
                  widths, head);
}

const Widths& log_widths() {
  static const Widths widths = {24, 21, 46, 44, 33, 20, 23, 18, kBodyWide - 229};
  return widths;
}

void Document::add_yard(const YardRows& yard) {
  add_heading(markup_name(yard.name));
  add_walks(yard);
  add_text("", kSmall, 0, true);
  const FlowBlock* head = table_head({kColumnTitles.begin(), kColumnTitles.end()}, log_widths());
  for (const ColonyRows& colony : yard.colonies) add_colony(colony, head);
}

// A row with its line below; the colony's name stands in the first column where it is given.
FlowBlock Document::row_block(const RegisterRow& row, const std::string& colony) {
  std::vector<std::string> cells{colony.empty() ? "" : bold(markup_name(colony))};
  const RegisterCells of_row = cells_of(row, head_.shown);
  for (std::size_t i = 0; i < of_row.size(); ++i) {
    const std::string markup = markup_of(of_row[i]);
    const bool lined = !markup.empty() && lined_through(row, static_cast<RegisterColumn>(i));
    cells.push_back(lined ? "<s>" + markup + "</s>" : markup);
  }
  const std::string more = markup_of(more_of(row));
  const double indent = log_widths().front();
  const double wide = kBodyWide - indent - 2 * kPad;
  const double high = cells_high(paper_, cells, log_widths());
  const double more_high = more.empty() ? 0 : paper_.text_height(more, wide, kBody) + kPad;
  return {high + more_high, [this, cells, more, indent, wide, high](double y) {
            draw_row(paper_, cells, log_widths(), y);
            if (more.empty()) return;
            paper_.begin("TR");
            paper_.begin("TD");
            paper_.text(more, kSheetEdge + indent + kPad, y + high - kPad / 2, wide, kBody);
            paper_.end("TD");
            paper_.end("TR");
          }};
}

const std::string& name_of(const ColonyRows& colony) { return colony.rows.front()->colony_name; }

// All rows of a colony in one block. Only one that fills more than a sheet is parted between rows.
void Document::add_colony(const ColonyRows& colony, const FlowBlock* head) {
  std::vector<FlowBlock> rows;
  double high = 0;
  std::string name = name_of(colony);
  for (const RegisterRow* r : colony.rows) {
    rows.push_back(row_block(*r, name));
    high += rows.back().height;
    name.clear();
  }
  if (high + head->height > kBodyHigh) {
    for (std::size_t i = 0; i < rows.size(); ++i) {
      FlowBlock parted = row_block(*colony.rows[i], name_of(colony) + (i > 0 ? " (cont.)" : ""));
      parted.head = head;
      blocks_.push_back(std::move(parted));
    }
    return;
  }
  blocks_.push_back({high,
                     [this, rows, high](double y) {
                       double at = y;
                       for (const FlowBlock& row : rows) {
                         row.draw(at);
                         at += row.height;
                       }
                       paper_.rule(kSheetEdge, y + high - kThin, kBodyWide, kThin);
                     },
                     false, head});
}

void Document::add_products() {
  const std::vector<ProductLine> lines = products_of(rows_);
  if (lines.empty()) return;
  add_heading("Products");
  const Widths widths = {70, 40, 36, 24, 50, kBodyWide - 220};
  const FlowBlock* head = table_head({kProductTitles.begin(), kProductTitles.end()}, widths);
  for (const ProductLine& line : lines) {
    std::vector<std::string> cells;
    for (const std::string& text : line) cells.push_back(markup_name(text));
    add_table_row(cells, widths, head);
  }
}

void Document::add_lines(const std::vector<std::string>& titles, const Widths& widths,
                         const std::vector<TableLine>& lines) {
  const FlowBlock* head = table_head(titles, widths);
  for (const TableLine& line : lines) {
    std::vector<std::string> cells;
    for (const std::string& text : line.cells) {
      const std::string markup = markup_name(text);
      const bool lined = line.struck && !text.empty() && cells.size() + 1 < line.cells.size();
      cells.push_back(lined ? "<s>" + markup + "</s>" : markup);
    }
    add_table_row(cells, widths, head);
  }
}

void Document::add_stock() {
  if (head_.stock.empty() && head_.lots.empty()) return;
  add_heading("Acid bought and disposed of");
  add_lines({kStockTitles.begin(), kStockTitles.end()},
            {20, 32, 46, 26, 20, 20, 50, kBodyWide - 214}, stock_lines(head_.stock));
  add_heading("Lots as they stand now");
  add_lines({kLotTitles.begin(), kLotTitles.end()}, {40, 70, 25, 25, 25, 25, kBodyWide - 210},
            lot_lines(head_.lots));
}

void Document::draw_foot(std::size_t sheet, std::size_t of) {
  const double y = kSheetHigh - kSheetEdge - kFootHigh + 3;
  paper_.rule(kSheetEdge, y, kBodyWide, kThin);
  std::string left = "Treatment register, " + markup_escaped(scope_of(head_));
  if (!head_.exported_by.empty()) left += ", exported by " + markup_name(head_.exported_by);
  if (!head_.journal_head.empty())
    left += "\nJournal's last entry: SHA-256 " + markup_escaped(head_.journal_head);
  constexpr double kNumberWide = 35;
  paper_.text(left, kSheetEdge, y + 1, kBodyWide - kNumberWide, kSmall);
  paper_.text(fmt::format("page {} of {}", sheet, of), kSheetWide - kSheetEdge - kNumberWide, y + 1,
              kNumberWide, kSmall, true);
}

}  // namespace

std::string register_pdf(const std::vector<RegisterRow>& rows, const RegisterHead& head) {
  return Document(rows, head).write();
}

}  // namespace storage
