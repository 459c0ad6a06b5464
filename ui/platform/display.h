// ui/platform/display.h -- the window (or a picture in memory) and what is shown on it.
//
// Owns the SDL window and renderer. Asks for OpenGL ES 2 first where it is worth it
// (graphics_choice.h), then for SDL's software renderer; the environment variables SDL_VIDEODRIVER
// and SDL_RENDER_DRIVER overrule both. One thread only.
//
// Drawing is lazy. A frame equal to the last one is not drawn at all; on the software renderer,
// whose picture stays from frame to frame, only the boxes that changed are drawn.
#pragma once
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/core/status.h"

struct ImDrawData;
struct ImFontAtlas;

namespace ui {

constexpr float kMmPerInch = 25.4F;

struct DisplayOptions {
  std::string title = "Duskwalk";
  int width_px = 1280;  // of the window, or of the picture when headless
  int height_px = 800;
  bool full_screen = false;          // takes the size of the panel instead
  std::optional<float> diagonal_mm;  // of the panel; for a window, of an imagined panel of its size
  std::optional<float> px_per_mm;    // overrules everything
};

struct DrawStats {
  bool skipped = true;  // nothing differed, nothing was drawn or shown
  int boxes = 0;        // how many rectangles were drawn
  double share = 0;     // of the screen's area that was drawn, 0 to 1
};

// Rows from the top, four bytes R, G, B, A a pixel.
struct Picture {
  int width_px = 0, height_px = 0;
  std::vector<std::uint8_t> rgba;

  bool operator==(const Picture&) const = default;
};

// Pixels a millimetre of a panel. From the options, else from the dots per inch that the driver
// reports if they can be true, else as if the panel were 10.1 inches across. 96 dpi counts as
// unknown: X servers report it when nobody told them the size.
[[nodiscard]] float px_per_mm(const DisplayOptions& options, int width_px, int height_px,
                              std::optional<float> driver_dpi);

// Whether anybody can see what this video driver shows. SDL falls back to drivers without a screen.
[[nodiscard]] bool can_be_seen(const std::string& video_driver);

class Display {
 public:
  // A real window on the video driver that SDL finds (KMSDRM, Wayland or X11). NotFound when there
  // is no screen, unless the environment asks for a driver without one.
  [[nodiscard]] static engine::Result<Display> open(const DisplayOptions& options);

  // No screen: dummy video driver, software renderer, exactly the size asked for.
  [[nodiscard]] static engine::Result<Display> open_headless(const DisplayOptions& options);

  Display(Display&&) noexcept;
  Display& operator=(Display&&) noexcept;
  ~Display();

  [[nodiscard]] int width_px() const;
  [[nodiscard]] int height_px() const;
  [[nodiscard]] float px_per_mm() const;
  [[nodiscard]] std::string video_driver() const;   // "KMSDRM", "wayland", "x11", "dummy", ...
  [[nodiscard]] std::string render_driver() const;  // "opengles2", "software", ...

  // Makes the texture of a built atlas and sets it as the atlas's id. The atlas must outlive the
  // Display: it is uploaded again when the graphics driver loses its textures.
  engine::Status use_atlas(ImFontAtlas& atlas);

  // Packed as IM_COL32; behind everything. Opaque whatever its alpha.
  void set_background(std::uint32_t colour);

  // Shows the frame that ImGui::Render() left, if it differs from what is shown.
  DrawStats draw(const ImDrawData& frame);

  // The next draw() draws all: the window was uncovered or the driver lost the picture.
  void redraw_all();

  // The window has a new size: takes it over. The owner gives ImGui the new size.
  void resized();

  // The graphics driver was reset: its textures are gone.
  engine::Status restore();

  // Draws `frame` and returns or writes its pixels.
  [[nodiscard]] engine::Result<Picture> picture(const ImDrawData& frame);
  engine::Status save_png(const ImDrawData& frame, const std::string& path);

  // The pixels as the last draw() left them. Software renderer only: others do not keep them.
  [[nodiscard]] engine::Result<Picture> shown() const;

 private:
  struct Parts;
  explicit Display(std::unique_ptr<Parts> parts);
  [[nodiscard]] static engine::Result<Display> finish(std::unique_ptr<Parts> parts,
                                                      const DisplayOptions& options);

  std::unique_ptr<Parts> parts_;
};

}  // namespace ui
