// ui/platform/fonts.h -- builds the letters in the five named sizes of ui/touch/fonts.h.
//
// The face is B612 Bold (Debian: fonts-b612), which was drawn for reading in cockpits: beside
// DejaVu Sans Bold at the same height of capitals it is a tenth narrower, so that more stands in
// large type, its l has a foot, and its digits are of one width. It has no Latin Extended-A and no
// arrows: those letters, and all of them where B612 is not installed, are DejaVu Sans Bold's
// (fonts-dejavu-core).
#pragma once
#include <string>

#include "engine/core/status.h"
#include "ui/touch/fonts.h"

struct ImFontAtlas;

namespace ui {

// Line heights on the glass, in millimetres. Own choice for reading at arm's length; a rule of
// thumb of sign making gives a letter height of about 1/200 of the distance, 3 mm at 600 mm.
struct TextSizes {
  float small_mm = 3.8f;   // capitals of 2.3 mm
  float body_mm = 5.0f;    // 3.1 mm
  float large_mm = 8.2f;   // 5.1 mm
  float huge_mm = 11.6f;   // 7.2 mm
  float clock_mm = 24.5f;  // 15.6 mm
};

// Textures of more than 2048 pixels a side are not safe on small GLES2 chips (from memory).
inline constexpr int kMostAtlasSide = 2048;

// The path of the face on this machine, or what to install.
[[nodiscard]] engine::Result<std::string> find_face();

// Fills an empty atlas. Sides of the atlas are powers of two, at most `most_side`; where the sizes
// asked for do not fit, the two largest are made smaller until they do.
[[nodiscard]] engine::Result<Fonts> build_fonts(ImFontAtlas& atlas, float px_per_mm,
                                                const std::string& face_path,
                                                const TextSizes& sizes = {},
                                                int most_side = kMostAtlasSide);

}  // namespace ui
