#include "ui/platform/display.h"

#include <SDL.h>
#include <imgui.h>

#include <cmath>
#include <cstdlib>
#include <utility>

#include "ui/platform/dirty_area.h"
#include "ui/platform/graphics_choice.h"
#include "ui/platform/png.h"
#include "ui/platform/renderer.h"
#include "ui/platform/sdl_handles.h"

namespace ui {

using engine::Code;
using engine::Result;
using engine::Status;

struct Display::Parts {
  SdlSystems systems;
  WindowHandle window;
  RendererHandle target;
  TextureHandle texture;
  ImFontAtlas* atlas = nullptr;
  std::optional<Renderer> renderer;
  int width_px = 0, height_px = 0;
  float px_per_mm = 0;
  bool keeps_picture = false;  // the target's pixels stay from one draw to the next
  bool all_stale = true;
  std::uint32_t background = IM_COL32(255, 255, 255, 255);
  std::uint64_t shown_hash = 0;
  std::vector<Patch> shown, next;

  [[nodiscard]] Box screen() const { return {0, 0, width_px, height_px}; }
};

namespace {

Status sdl_failure(const std::string& what) { return {Code::Failed, what + ": " + SDL_GetError()}; }

// Set before SDL starts. Fingers and mice are told apart by our own input layer.
void set_hints() {
  SDL_SetHint(SDL_HINT_TOUCH_MOUSE_EVENTS, "0");
  SDL_SetHint(SDL_HINT_MOUSE_TOUCH_EVENTS, "0");
  SDL_SetHint(SDL_HINT_RENDER_BATCHING, "1");
}

// With the hint unset SDL makes an OpenGL context on X11 and Wayland just to show a software
// picture. On KMSDRM it is the only way to show one, so it must not be set there.
void set_presentation_hint() {
  if (shows_pictures_without_gl(SDL_GetCurrentVideoDriver()))
    SDL_SetHint(SDL_HINT_FRAMEBUFFER_ACCELERATION, "0");
}

Status require_screen() {
  const std::string driver = SDL_GetCurrentVideoDriver();
  if (can_be_seen(driver) || std::getenv("SDL_VIDEODRIVER") != nullptr) return {};
  return {Code::NotFound,
          "no screen was found: connect one, or run this as a user of the groups video and render"};
}

int index_of_renderer(const std::string& name) {
  for (int i = 0; i < SDL_GetNumRenderDrivers(); ++i) {
    SDL_RendererInfo info{};
    if (SDL_GetRenderDriverInfo(i, &info) == 0 && name == info.name) return i;
  }
  return -1;
}

RendererHandle try_renderer(SDL_Window* window, const std::string& name) {
  const int index = index_of_renderer(name);
  return RendererHandle(index < 0 ? nullptr : SDL_CreateRenderer(window, index, 0));
}

// What the OpenGL of the renderer that was just made says of itself.
std::string gl_renderer_name() {
  constexpr unsigned kGlRenderer = 0x1F01;  // GL_RENDERER of the OpenGL ES 2.0 specification
  using GetString = const unsigned char* (*)(unsigned);
  const auto get_string = reinterpret_cast<GetString>(SDL_GL_GetProcAddress("glGetString"));
  const unsigned char* name = get_string == nullptr ? nullptr : get_string(kGlRenderer);
  return name == nullptr ? std::string() : reinterpret_cast<const char*>(name);
}

// OpenGL, unless the processor would draw it though it need not.
RendererHandle try_opengl(SDL_Window* window) {
  const bool avoidable = shows_pictures_without_gl(SDL_GetCurrentVideoDriver());
  if (avoidable && !may_have_graphics_chip(graphics_device_names())) return {};
  RendererHandle made = try_renderer(window, "opengles2");
  if (made && avoidable && is_software_gl(gl_renderer_name())) return {};
  return made;
}

RendererHandle best_renderer(SDL_Window* window) {
  if (const char* asked = std::getenv("SDL_RENDER_DRIVER"))
    if (RendererHandle r = try_renderer(window, asked)) return r;
  if (RendererHandle r = try_opengl(window)) return r;
  return try_renderer(window, "software");
}

std::optional<float> driver_dpi(SDL_Window* window) {
  float dpi = 0;
  const int index = SDL_GetWindowDisplayIndex(window);
  if (index < 0 || SDL_GetDisplayDPI(index, &dpi, nullptr, nullptr) != 0) return std::nullopt;
  return dpi;
}

// ImGui's atlas is white with a coverage, so four bytes are made of each one here rather than
// kept in memory by ImGui.
std::vector<std::uint32_t> white_with_alpha(const unsigned char* alpha, int width, int height) {
  const auto count = static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
  std::vector<std::uint32_t> pixels(count);
  for (std::size_t i = 0; i < count; ++i) pixels[i] = IM_COL32(255, 255, 255, alpha[i]);
  return pixels;
}

Result<Picture> read_pixels(SDL_Renderer* target, int width, int height) {
  Picture p{width, height, {}};
  p.rgba.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 4);
  if (SDL_RenderReadPixels(target, nullptr, SDL_PIXELFORMAT_RGBA32, p.rgba.data(), width * 4) != 0)
    return sdl_failure("cannot read the picture from the screen");
  for (std::size_t i = 3; i < p.rgba.size(); i += 4) p.rgba[i] = 255;
  return p;
}

}  // namespace

bool can_be_seen(const std::string& driver) {
  return driver != "dummy" && driver != "offscreen" && driver != "evdev";
}

float px_per_mm(const DisplayOptions& o, int width_px, int height_px,
                std::optional<float> driver_dpi) {
  constexpr float kGuessMm = 10.1f * kMmPerInch;
  if (o.px_per_mm) return *o.px_per_mm;
  const float diagonal_px = std::hypot(static_cast<float>(width_px), static_cast<float>(height_px));
  if (o.diagonal_mm) return diagonal_px / *o.diagonal_mm;
  // Below 60 or above 600 dots per inch no panel in use; a wrong size in the panel's own data.
  const bool told =
      driver_dpi && *driver_dpi >= 60 && *driver_dpi <= 600 && std::fabs(*driver_dpi - 96) > 0.5f;
  return told ? *driver_dpi / kMmPerInch : diagonal_px / kGuessMm;
}

Display::Display(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
Display::Display(Display&&) noexcept = default;
Display& Display::operator=(Display&&) noexcept = default;
Display::~Display() = default;

Result<Display> Display::open(const DisplayOptions& options) {
  set_hints();
  auto parts = std::make_unique<Parts>();
  if (!parts->systems.start(SDL_INIT_VIDEO | SDL_INIT_EVENTS))
    return sdl_failure("cannot open a screen");
  if (Status s = require_screen(); !s.ok()) return s;
  set_presentation_hint();
  const Uint32 flags = SDL_WINDOW_RESIZABLE |
                       (options.full_screen ? Uint32{SDL_WINDOW_FULLSCREEN_DESKTOP} : Uint32{0});
  parts->window.reset(SDL_CreateWindow(options.title.c_str(), SDL_WINDOWPOS_CENTERED,
                                       SDL_WINDOWPOS_CENTERED, options.width_px, options.height_px,
                                       flags));
  if (!parts->window) return sdl_failure("cannot open a window");
  parts->target = best_renderer(parts->window.get());
  if (options.full_screen) SDL_ShowCursor(SDL_DISABLE);
  return finish(std::move(parts), options);
}

Result<Display> Display::open_headless(const DisplayOptions& options) {
  set_hints();
  auto parts = std::make_unique<Parts>();
  {
    const ForcedHint dummy(SDL_HINT_VIDEODRIVER, "dummy");
    if (!parts->systems.start(SDL_INIT_VIDEO | SDL_INIT_EVENTS))
      return sdl_failure("cannot start drawing without a screen");
  }
  parts->window.reset(SDL_CreateWindow(options.title.c_str(), 0, 0, options.width_px,
                                       options.height_px, SDL_WINDOW_HIDDEN));
  if (!parts->window) return sdl_failure("cannot make a picture to draw on");
  parts->target = try_renderer(parts->window.get(), "software");
  return finish(std::move(parts), options);
}

Result<Display> Display::finish(std::unique_ptr<Parts> parts, const DisplayOptions& options) {
  if (!parts->target) return sdl_failure("cannot draw on the screen");
  SDL_RendererInfo info{};
  SDL_GetRendererInfo(parts->target.get(), &info);
  parts->keeps_picture = (info.flags & SDL_RENDERER_SOFTWARE) != 0;
  parts->renderer.emplace(*parts->target);
  Display display(std::move(parts));
  display.resized();
  Parts& p = *display.parts_;
  p.px_per_mm = ui::px_per_mm(options, p.width_px, p.height_px, driver_dpi(p.window.get()));
  return display;
}

int Display::width_px() const { return parts_->width_px; }
int Display::height_px() const { return parts_->height_px; }
float Display::px_per_mm() const { return parts_->px_per_mm; }

std::string Display::video_driver() const { return SDL_GetCurrentVideoDriver(); }

std::string Display::render_driver() const {
  SDL_RendererInfo info{};
  SDL_GetRendererInfo(parts_->target.get(), &info);
  return info.name;
}

Status Display::use_atlas(ImFontAtlas& atlas) {
  unsigned char* alpha = nullptr;
  int width = 0, height = 0;
  atlas.GetTexDataAsAlpha8(&alpha, &width, &height);
  const auto pixels = white_with_alpha(alpha, width, height);
  TextureHandle texture(SDL_CreateTexture(parts_->target.get(), SDL_PIXELFORMAT_RGBA32,
                                          SDL_TEXTUREACCESS_STATIC, width, height));
  if (!texture || SDL_UpdateTexture(texture.get(), nullptr, pixels.data(), width * 4) != 0)
    return sdl_failure("cannot load the letters into the graphics memory");
  SDL_SetTextureBlendMode(texture.get(), SDL_BLENDMODE_BLEND);
  SDL_SetTextureScaleMode(texture.get(), SDL_ScaleModeLinear);
  atlas.SetTexID(texture.get());
  parts_->texture = std::move(texture);
  parts_->atlas = &atlas;
  redraw_all();
  return {};
}

Status Display::restore() {
  redraw_all();
  return parts_->atlas == nullptr ? Status{} : use_atlas(*parts_->atlas);
}

void Display::set_background(std::uint32_t colour) {
  if (colour != parts_->background) redraw_all();
  parts_->background = colour;
}

void Display::redraw_all() { parts_->all_stale = true; }

void Display::resized() {
  SDL_GetRendererOutputSize(parts_->target.get(), &parts_->width_px, &parts_->height_px);
  redraw_all();
}

DrawStats Display::draw(const ImDrawData& frame) {
  Parts& p = *parts_;
  const std::uint64_t hash = hash_of(frame);
  if (hash == p.shown_hash && !p.all_stale) return {};
  std::vector<Box> boxes{p.screen()};
  if (p.keeps_picture) {
    flatten(frame, p.screen(), p.next);
    if (!p.all_stale) boxes = changed(p.shown, p.next, p.screen());
    std::swap(p.shown, p.next);
  }
  p.shown_hash = hash;
  p.all_stale = false;
  if (boxes.empty()) return {};
  DrawStats stats{false, static_cast<int>(boxes.size()), 0};
  for (const Box& b : boxes) {
    p.renderer->draw(frame, b, p.background);
    stats.share += static_cast<double>(area(b)) / static_cast<double>(area(p.screen()));
  }
  SDL_RenderPresent(p.target.get());
  return stats;
}

Result<Picture> Display::picture(const ImDrawData& frame) {
  Parts& p = *parts_;
  if (p.keeps_picture) {
    draw(frame);
    return shown();
  }
  p.renderer->draw(frame, p.screen(), p.background);
  redraw_all();  // drawn, but not shown
  return read_pixels(p.target.get(), p.width_px, p.height_px);
}

Result<Picture> Display::shown() const {
  if (!parts_->keeps_picture)
    return {Code::Failed, "the graphics driver does not keep the picture that is shown"};
  return read_pixels(parts_->target.get(), parts_->width_px, parts_->height_px);
}

Status Display::save_png(const ImDrawData& frame, const std::string& path) {
  const Result<Picture> p = picture(frame);
  return p.ok() ? write_png(p.value(), path) : p.status();
}

}  // namespace ui
