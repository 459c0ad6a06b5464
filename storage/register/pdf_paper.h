// storage/register/pdf_paper.h -- sheets of paper that text is set on, as one PDF.
//
// What is drawn between begin() and end() is an element of the document's structure (ISO 32000-1,
// 14.8: "H1", "P", "Table", "TR", "TH", "TD"), so that it can be read aloud and taken out in order.
//
// Text is set by Pango on a Cairo PDF surface: any script, selectable, fonts embedded. Lengths are
// millimetres from the upper left corner of the sheet, type sizes are points. The sheet lies inside
// both A4 and Letter on their side, so that either paper takes it unscaled. No clock: the date of
// the document is given, and the same calls give the same bytes.
#pragma once
#include <memory>
#include <string>
#include <string_view>

namespace storage {

inline constexpr double kSheetWide = 279.4, kSheetHigh = 210.0;  // Letter's length, A4's width

struct PaperInfo {
  std::string title;
  std::string author;
  std::string created;  // RFC 3339; empty: not said
};

// html_escaped, and line breaks as spaces: for what stands between tags.
[[nodiscard]] std::string markup_escaped(std::string_view text);
// The same, kept apart from the direction of what stands around it.
[[nodiscard]] std::string markup_name(std::string_view text);

class Paper {
 public:
  explicit Paper(const PaperInfo& info);
  ~Paper();
  Paper(const Paper&) = delete;
  Paper& operator=(const Paper&) = delete;

  // `markup` is Pango's: <b>, <s>, <small>, line breaks. It wraps at words, else anywhere.
  [[nodiscard]] double text_height(const std::string& markup, double width, double points);
  void text(const std::string& markup, double x, double y, double width, double points,
            bool right = false);
  // No higher than `height`: what does not fit ends in an ellipsis. One line always stands.
  void text_within(const std::string& markup, double x, double y, double width, double height,
                   double points);
  void rule(double x, double y, double width, double thick);
  void ink(double x, double y, double width, double height);    // black
  void shade(double x, double y, double width, double height);  // a light ground under text
  void frame(double x, double y, double width, double height, double thick);
  // Elements may hold others, and all stand in one "Document"; each is ended before its page is.
  void begin(const char* element);
  void end(const char* element);
  void end_page();

  // The document; nothing can be drawn after. Empty when Cairo failed.
  [[nodiscard]] std::string finish();

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace storage
