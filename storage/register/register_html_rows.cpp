#include "storage/register/register_html_rows.h"

#include <fmt/format.h>

#include "storage/text/html_text.h"

namespace storage {

using namespace engine;

std::string lines_of(const std::vector<std::string>& parts, const char* between) {
  std::string out;
  for (const std::string& p : parts)
    if (!p.empty()) out += (out.empty() ? "" : between) + p;
  return out;
}

namespace {

std::string html_of(const Piece& piece) {
  switch (piece.role) {
    case Piece::Role::Name:
      return html_name(piece.text);
    case Piece::Role::Mark:
      return "<span class=\"mark\">" + html_escaped(piece.text) + "</span>";
    case Piece::Role::Plain:
      break;
  }
  return html_escaped(piece.text);
}

std::string html_of(const CellLine& line) {
  std::string out;
  for (const Piece& piece : line.pieces) out += html_of(piece);
  return line.small ? "<small>" + out + "</small>" : out;
}

std::string html_of(const Cell& cell) {
  std::vector<std::string> lines;
  for (const CellLine& line : cell) lines.push_back(html_of(line));
  return lines_of(lines, "<br>");
}

bool keeps_its_width(RegisterColumn c) {
  return c == RegisterColumn::When || c == RegisterColumn::Hive || c == RegisterColumn::Times ||
         c == RegisterColumn::Withdrawal;
}

std::string row_html(const RegisterRow& r, Units shown, const std::string& colony, bool first) {
  std::string out = (first ? "<tr>" : "<tr class=\"next\">") + colony;
  const RegisterCells cells = cells_of(r, shown);
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const auto column = static_cast<RegisterColumn>(i);
    const std::string html = html_of(cells[i]);
    const bool lined = lined_through(r, column) && !html.empty();
    if (html.empty()) {
      out += "<td></td>";
      continue;
    }
    out += fmt::format("<td{} data-l=\"{}\">{}{}{}</td>",
                       keeps_its_width(column) ? " class=\"n\"" : "", kColumnTitles[i + 1],
                       lined ? "<s>" : "", html, lined ? "</s>" : "");
  }
  out += "</tr>\n";
  if (const CellLine more = more_of(r); !more.pieces.empty())
    out += fmt::format("<tr class=\"more\"><td colspan=\"{}\">{}</td></tr>\n", kCellsBesideColony,
                       html_of(more));
  return out;
}

}  // namespace

std::string colony_html(const RowRefs& rows, Units shown) {
  std::size_t lines = rows.size();
  for (const RegisterRow* r : rows) lines += more_of(*r).pieces.empty() ? 0 : 1;
  std::string colony = fmt::format("<th scope=\"rowgroup\" rowspan=\"{}\">{}</th>", lines,
                                   html_name(rows.front()->colony_name));
  std::string out = "<tbody>\n";
  for (const RegisterRow* r : rows) {
    out += row_html(*r, shown, colony, r == rows.front());
    colony.clear();
  }
  return out + "</tbody>\n";
}

}  // namespace storage
