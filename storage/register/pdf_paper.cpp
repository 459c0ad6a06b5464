#include "storage/register/pdf_paper.h"

#include <cairo-pdf.h>
#include <pango/pangocairo.h>

#include <memory>
#include <unordered_map>

#include "storage/register/pdf_metadata.h"
#include "storage/text/html_text.h"

namespace storage {
namespace {

constexpr double kPointsPerMm = 72.0 / 25.4;
constexpr const char* kFont = "DejaVu Sans";
constexpr const char* kIsolate = "\xE2\x81\xA8";     // U+2068
constexpr const char* kEndIsolate = "\xE2\x81\xA9";  // U+2069

cairo_status_t append(void* to, const unsigned char* bytes, unsigned int length) {
  static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(bytes), length);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace

std::string markup_escaped(std::string_view text) {
  std::string out = html_escaped(text);  // Pango's entities are those of HTML
  for (char& c : out)
    if (c == '\n' || c == '\t') c = ' ';
  return out;
}

std::string markup_name(std::string_view text) {
  return text.empty() ? "" : kIsolate + markup_escaped(text) + kEndIsolate;
}

namespace {

// The font's digits are all as wide: texts that differ in them alone are as high.
std::string digits_alike(std::string text) {
  for (char& c : text)
    if (c >= '1' && c <= '9') c = '0';
  return text;
}

struct DropLayout {
  void operator()(PangoLayout* layout) const { g_object_unref(layout); }
};
using Layout = std::unique_ptr<PangoLayout, DropLayout>;

}  // namespace

struct Paper::Impl {
  PaperInfo info;
  bool tagged = false;
  std::string bytes;
  cairo_surface_t* surface = nullptr;
  cairo_t* cairo = nullptr;
  PangoContext* fonts = nullptr;
  // Texts repeat (the same dose, the same lot), and each is measured before it is drawn; so what
  // was set is kept, up to a few megabytes.
  std::unordered_map<std::string, Layout> set_before;
  std::unordered_map<std::string, double> heights;  // mm, by shape

  static std::string key_of(const std::string& markup, double width, double points) {
    return std::to_string(width) + ' ' + std::to_string(points) + ' ' + markup;
  }

  PangoLayout* set(const std::string& markup, double width, double points) {
    constexpr std::size_t kMostKept = 4000;
    const std::string key = key_of(markup, width, points);
    if (const auto at = set_before.find(key); at != set_before.end()) return at->second.get();
    if (set_before.size() >= kMostKept) set_before.clear();
    Layout layout = make_layout(markup, width, points);
    return set_before.emplace(key, std::move(layout)).first->second.get();
  }

 private:
  [[nodiscard]] Layout make_layout(const std::string& markup, double width, double points) const {
    Layout layout(pango_layout_new(fonts));
    PangoFontDescription* font = pango_font_description_from_string(kFont);
    pango_font_description_set_size(font, static_cast<int>(points * PANGO_SCALE));
    pango_layout_set_font_description(layout.get(), font);
    pango_font_description_free(font);
    pango_layout_set_width(layout.get(), static_cast<int>(width * kPointsPerMm * PANGO_SCALE));
    pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
    pango_layout_set_markup(layout.get(), markup.data(), static_cast<int>(markup.size()));
    return layout;
  }
};

Paper::Paper(const PaperInfo& info) : impl_(std::make_unique<Impl>()) {
  impl_->info = info;
  impl_->surface = cairo_pdf_surface_create_for_stream(
      append, &impl_->bytes, kSheetWide * kPointsPerMm, kSheetHigh * kPointsPerMm);
  const auto tell = [&](cairo_pdf_metadata_t what, const std::string& text) {
    if (!text.empty()) cairo_pdf_surface_set_metadata(impl_->surface, what, text.c_str());
  };
  tell(CAIRO_PDF_METADATA_TITLE, info.title);
  tell(CAIRO_PDF_METADATA_AUTHOR, info.author);
  tell(CAIRO_PDF_METADATA_CREATOR, "Duskwalk");
  tell(CAIRO_PDF_METADATA_CREATE_DATE, info.created);
  tell(CAIRO_PDF_METADATA_MOD_DATE, info.created);
  impl_->cairo = cairo_create(impl_->surface);
  impl_->fonts = pango_cairo_create_context(impl_->cairo);
  constexpr double kPointsPerInch = 72;  // so that a point of type is a point of paper
  pango_cairo_context_set_resolution(impl_->fonts, kPointsPerInch);
}

Paper::~Paper() {
  impl_->set_before.clear();
  g_object_unref(impl_->fonts);
  cairo_destroy(impl_->cairo);
  cairo_surface_destroy(impl_->surface);
}

double Paper::text_height(const std::string& markup, double width, double points) {
  constexpr std::size_t kMostShapes = 100'000;
  std::string shape = Impl::key_of(digits_alike(markup), width, points);
  if (const auto at = impl_->heights.find(shape); at != impl_->heights.end()) return at->second;
  int high = 0;
  pango_layout_get_size(impl_->set(markup, width, points), nullptr, &high);
  if (impl_->heights.size() >= kMostShapes) impl_->heights.clear();
  return impl_->heights[std::move(shape)] = high / (PANGO_SCALE * kPointsPerMm);
}

void Paper::text(const std::string& markup, double x, double y, double width, double points,
                 bool right) {
  if (markup.empty()) return;
  PangoLayout* layout = impl_->set(markup, width, points);
  pango_layout_set_alignment(layout, right ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_LEFT);
  cairo_move_to(impl_->cairo, x * kPointsPerMm, y * kPointsPerMm);
  cairo_set_source_rgb(impl_->cairo, 0, 0, 0);
  pango_cairo_show_layout(impl_->cairo, layout);
}

void Paper::text_within(const std::string& markup, double x, double y, double width, double height,
                        double points) {
  PangoLayout* layout = impl_->set(markup, width, points);
  pango_layout_set_height(layout, static_cast<int>(height * kPointsPerMm * PANGO_SCALE));
  pango_layout_set_ellipsize(layout, PANGO_ELLIPSIZE_END);
  text(markup, x, y, width, points);
  pango_layout_set_ellipsize(layout, PANGO_ELLIPSIZE_NONE);  // it is kept, and may be set whole
  pango_layout_set_height(layout, -1);
}

void Paper::rule(double x, double y, double width, double thick) {
  cairo_set_source_rgb(impl_->cairo, 0, 0, 0);
  cairo_rectangle(impl_->cairo, x * kPointsPerMm, y * kPointsPerMm, width * kPointsPerMm,
                  thick * kPointsPerMm);
  cairo_fill(impl_->cairo);
}

void Paper::ink(double x, double y, double width, double height) { rule(x, y, width, height); }

void Paper::shade(double x, double y, double width, double height) {
  constexpr double kGround = 0.91;  // black on it: 17:1
  cairo_set_source_rgb(impl_->cairo, kGround, kGround, kGround);
  cairo_rectangle(impl_->cairo, x * kPointsPerMm, y * kPointsPerMm, width * kPointsPerMm,
                  height * kPointsPerMm);
  cairo_fill(impl_->cairo);
}

void Paper::frame(double x, double y, double width, double height, double thick) {
  rule(x, y, width, thick);
  rule(x, y + height - thick, width, thick);
  cairo_rectangle(impl_->cairo, x * kPointsPerMm, y * kPointsPerMm, thick * kPointsPerMm,
                  height * kPointsPerMm);
  cairo_rectangle(impl_->cairo, (x + width - thick) * kPointsPerMm, y * kPointsPerMm,
                  thick * kPointsPerMm, height * kPointsPerMm);
  cairo_fill(impl_->cairo);
}

// Cairo calls a document tagged only when all of its elements stand in one "Document".
void Paper::begin(const char* element) {
  if (!impl_->tagged) cairo_tag_begin(impl_->cairo, "Document", nullptr);
  impl_->tagged = true;
  cairo_tag_begin(impl_->cairo, element, nullptr);
}

void Paper::end(const char* element) { cairo_tag_end(impl_->cairo, element); }

void Paper::end_page() { cairo_show_page(impl_->cairo); }

std::string Paper::finish() {
  if (impl_->tagged) cairo_tag_end(impl_->cairo, "Document");
  cairo_surface_finish(impl_->surface);
  if (cairo_surface_status(impl_->surface) != CAIRO_STATUS_SUCCESS) return {};
  return with_metadata(std::move(impl_->bytes), impl_->info);
}

}  // namespace storage
