#include "ui/app/stage.h"

#include <imgui.h>

#include "ui/platform/fonts.h"

namespace ui {
namespace {

ImVec2 size_of(const Display& display) {
  return {static_cast<float>(display.width_px()), static_cast<float>(display.height_px())};
}

}  // namespace

Stage::Stage(Display display) : display_(std::move(display)), context_(ImGui::CreateContext()) {
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;  // nothing of ours lies in the working folder
  io.LogFilename = nullptr;
  // A full page has more corners than 16-bit indices count; ours are counted from an offset.
  io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
  io.DisplaySize = size_of(*display_);
  input_.set_size(display_->width_px(), display_->height_px());
}

Stage::~Stage() {
  display_.reset();
  ImGui::DestroyContext(context_);
}

engine::Status Stage::letters() {
  const auto face = find_face();
  if (!face.ok()) return face.status();
  auto fonts = build_fonts(*ImGui::GetIO().Fonts, display_->px_per_mm(), face.value());
  if (!fonts.ok()) return fonts.status();
  fonts_ = fonts.value();
  return display_->use_atlas(*ImGui::GetIO().Fonts);
}

engine::Result<std::unique_ptr<Stage>> Stage::on(Display display) {
  std::unique_ptr<Stage> stage(new Stage(std::move(display)));
  if (const engine::Status ready = stage->letters(); !ready.ok()) return ready;
  return stage;
}

int Stage::build(const Page& page, const engine::Stamp& now, std::int64_t touch_ms) {
  const auto frame = [&](const std::optional<EventTime>& at) {
    const ImGuiIO& io = ImGui::GetIO();
    FrameAt f{io.DisplaySize.x, io.DisplaySize.y, display_->px_per_mm(), fonts_, now, touch_ms};
    if (at) f.touch_ms = at->latest_ms, f.touch_earliest_ms = at->earliest_ms;
    ImGui::NewFrame();
    page(f);
    ImGui::Render();
  };
  const double since = static_cast<double>(touch_ms - shown_at_ms_) / 1000.0;
  shown_at_ms_ = touch_ms;
  const int frames = input_.run(ImGui::GetIO(), since, frame);
  // What a tap changed is seen in a frame of its own.
  return frames + input_.run(ImGui::GetIO(), 0, frame);
}

void Stage::present(Colour ground) {
  display_->set_background(IM_COL32(ground.r, ground.g, ground.b, 255));
  display_->draw(*ImGui::GetDrawData());
}

int Stage::show(App& app, const engine::Stamp& now, std::int64_t touch_ms) {
  const int frames = build([&app](const FrameAt& at) { app.frame(at); }, now, touch_ms);
  input_.set_rests(app.touch().finger_rests());
  present(app.background());
  return frames;
}

int Stage::show(const Page& page, Colour ground, const engine::Stamp& now, std::int64_t touch_ms) {
  const int frames = build(page, now, touch_ms);
  present(ground);
  return frames;
}

bool Stage::obey_window() {
  const WindowEvents told = input_.take_told();
  typed_ += told.typed;
  if (told.resized) {
    display_->resized();
    ImGui::GetIO().DisplaySize = size_of(*display_);
    input_.set_size(display_->width_px(), display_->height_px());
  }
  if (told.reset && !display_->restore().ok()) return false;
  if (told.redraw) display_->redraw_all();
  return !told.quit;
}

engine::Status Stage::save_png(const std::string& path) {
  return display_->save_png(*ImGui::GetDrawData(), path);
}

}  // namespace ui
