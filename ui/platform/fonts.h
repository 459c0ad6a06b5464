// ui/platform/fonts.h -- builds the letters in the five named sizes of ui/touch/fonts.h.
//
// The face is DejaVu Sans Bold (Debian: fonts-dejavu-core), chosen for its even-width digits, its
// clearly different I, l, 1 and 0, O, and its cover of Latin-1 and Latin Extended-A.
#pragma once
#include <string>

#include "engine/core/status.h"
#include "ui/touch/fonts.h"

struct ImFontAtlas;

namespace ui {

// Line heights on the glass, in millimetres. Own choice for reading at arm's length; a rule of
// thumb of sign making gives a letter height of about 1/200 of the distance, 3 mm at 600 mm.
struct TextSizes {
  float small_mm = 3.8f;
  float body_mm = 5.0f;
  float large_mm = 7.4f;
  float huge_mm = 12.0f;
  float clock_mm = 22.0f;
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
