#include "ui/platform/fonts.h"

#include <imgui.h>

#include <cmath>
#include <fstream>
#include <initializer_list>
#include <iterator>
#include <vector>

namespace ui {
namespace {

using engine::Code;
using engine::Result;
using engine::Status;

// Pairs of first and last code point; ImGui reads them until the atlas is built.
constexpr ImWchar kText[] = {
    0x0020, 0x007e,  // ASCII
    0x00a0, 0x017f,  // Latin-1, Latin Extended-A
    0x0218, 0x021b,  // Romanian S and T with comma below
    0x2010, 0x2015,  // hyphens and dashes
    0x2018, 0x201e,  // quotes
    0x2022, 0x2022,  // bullet
    0x2026, 0x2026,  // ellipsis
    0x2039, 0x203a,  // single angle quotes
    0x20ac, 0x20ac,  // euro
    0x2190, 0x2193,  // arrows
    0x2212, 0x2212,  // minus
    0x2248, 0x2248,  // about equal
    0x2264, 0x2265,  // at most, at least
    0x25a0, 0x25a1,  // squares
    0x25b2, 0x25b2,  // triangles: up, right, down, left
    0x25b6, 0x25b6, 0x25bc, 0x25bc, 0x25c0, 0x25c0, 0x25cb, 0x25cb,  // circles: open, filled
    0x25cf, 0x25cf, 0x26a0, 0x26a0,                                  // warning sign
    0x2713, 0x2713,                                                  // check mark
    0x2717, 0x2717,                                                  // cross
    0,
};
constexpr ImWchar kClock[] = {0x0020, 0x0020, 0x002b, 0x002b, 0x002c, 0x003a, 0x0067,
                              0x0067, 0x006f, 0x006f, 0x007a, 0x007a, 0};  // a dose: g, oz

std::vector<char> read_all(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

// The four bytes every TrueType or OpenType file begins with. ImGui would abort on another file.
bool is_face(const std::vector<char>& bytes) {
  if (bytes.size() < 1024) return false;
  const std::string magic(bytes.data(), 4);
  return magic == std::string("\0\1\0\0", 4) || magic == "OTTO" || magic == "true";
}

// Both faces have capitals of 0.62 of the size that ImGui is asked for, so a letter of the second
// stands beside those of the first as high as they do.
class Builder {
 public:
  // `beside`: has the letters that `face` lacks; may be empty.
  Builder(ImFontAtlas& atlas, std::vector<char>& face, std::vector<char>& beside, float px_per_mm)
      : atlas_(atlas), face_(face), beside_(beside), px_per_mm_(px_per_mm) {}

  // Whether the sizes fit in textures of `most_side`; `fonts` is good only then.
  bool build(const TextSizes& s, int most_side, Fonts& fonts) {
    atlas_.Clear();
    // Without lines in the atlas they are drawn as plain shapes, which are faster in software.
    atlas_.Flags |= ImFontAtlasFlags_NoMouseCursors | ImFontAtlasFlags_NoBakedLines;
    atlas_.TexDesiredWidth = 0;
    fonts = {add(s.small_mm, kText), add(s.body_mm, kText), add(s.large_mm, kText),
             add(s.huge_mm, kText), add(s.clock_mm, kClock)};
    return atlas_.Build() && atlas_.TexWidth <= most_side && atlas_.TexHeight <= most_side;
  }

 private:
  ImFont* add(float mm, const ImWchar* ranges) {
    ImFont* font = add(face_, mm, ranges, false);
    if (!beside_.empty()) add(beside_, mm, ranges, true);
    return font;
  }

  ImFont* add(std::vector<char>& face, float mm, const ImWchar* ranges, bool merge) {
    ImFontConfig c;
    c.FontData = face.data();
    c.FontDataSize = static_cast<int>(face.size());
    c.MergeMode = merge;
    c.FontDataOwnedByAtlas = false;
    c.SizePixels = std::fmax(8.0f, std::round(mm * px_per_mm_));
    c.OversampleH = 1;
    c.OversampleV = 1;
    c.PixelSnapH = true;
    c.GlyphRanges = ranges;
    return atlas_.AddFont(&c);
  }

  ImFontAtlas& atlas_;
  std::vector<char>& face_;
  std::vector<char>& beside_;
  float px_per_mm_;
};

std::string first_there(std::initializer_list<const char*> paths) {
  for (const char* path : paths)
    if (std::ifstream(path).good()) return path;
  return {};
}

std::string full_face() {
  return first_there({"/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf",
                      "/usr/share/fonts/dejavu/DejaVuSans-Bold.ttf",
                      "/usr/share/fonts/dejavu-sans-fonts/DejaVuSans-Bold.ttf",
                      "/usr/share/fonts/TTF/DejaVuSans-Bold.ttf"});
}

}  // namespace

Result<std::string> find_face() {
  const std::string read_in_cockpits =
      first_there({"/usr/share/fonts/opentype/b612/B612-Bold.otf",
                   "/usr/share/fonts/b612/B612-Bold.otf", "/usr/share/fonts/TTF/B612-Bold.ttf"});
  const std::string full = full_face();
  if (full.empty())
    return {Code::NotFound,
            "DejaVuSans-Bold.ttf is not there: install the package fonts-dejavu-core"};
  return read_in_cockpits.empty() ? full : read_in_cockpits;
}

Result<Fonts> build_fonts(ImFontAtlas& atlas, float px_per_mm, const std::string& face_path,
                          const TextSizes& sizes, int most_side) {
  std::vector<char> face = read_all(face_path);
  if (!is_face(face))
    return {
        face.empty() ? Code::NotFound : Code::Damaged,
        face_path + " is not a font: install the packages fonts-b612 and fonts-dejavu-core again"};
  const std::string full = full_face();
  std::vector<char> beside;
  if (full != face_path) beside = read_all(full);
  if (!is_face(beside)) beside.clear();
  Builder builder(atlas, face, beside, px_per_mm);
  TextSizes s = sizes;
  Fonts fonts;
  bool fits = builder.build(s, most_side, fonts);
  while (!fits && s.huge_mm > s.body_mm) {
    s.huge_mm *= 0.85f;
    s.clock_mm *= 0.85f;
    fits = builder.build(s, most_side, fonts);
  }
  atlas.ClearInputData();  // it points to both faces, which end here
  if (!fits) return {Code::Failed, "the letters do not fit into the graphics memory"};
  return fonts;
}

}  // namespace ui
