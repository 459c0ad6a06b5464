// tests/bench/frame_bench.cpp -- what one tick of a countdown costs, in microseconds of processor
// time.
//
// Draws three mock screens headless on the software renderer, once in full and once by changed
// boxes, and prints medians. Usage: frame_bench [frames]
#include <imgui.h>
#include <time.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <string>
#include <vector>

#include "ui/platform/dirty_area.h"
#include "ui/platform/display.h"
#include "ui/platform/fonts.h"

namespace {

// Processor time of this thread, which draws everything here: a busy machine does not count.
double used_us() {
  timespec t{};
  ::clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) * 1e6 + static_cast<double>(t.tv_nsec) / 1e3;
}

struct Stage {
  ui::Display display;
  ui::Fonts fonts;
  int second = 600;
};

template <class T>
T or_exit(engine::Result<T> r) {
  if (r.ok()) return std::move(r).value();
  std::fprintf(stderr, "frame_bench: %s\n", r.status().message().c_str());
  std::exit(1);
}

void clock_text(const Stage& s) {
  ImGui::PushFont(s.fonts.clock);
  ImGui::Text("%d:%02d", s.second / 60, s.second % 60);
  ImGui::PopFont();
}

void walk_screen(const Stage& s) {
  ImGui::Text("Colony B3: 2 g, set in the entrance");
  clock_text(s);
  ImGui::ProgressBar(static_cast<float>(s.second % 60) / 60, ImVec2(-1, 40), "");
  for (const char* label : {"TREATED", "PASS OVER", "BEES FLYING", "STRIKE LAST"})
    ImGui::Button(label, ImVec2(-1, 100));
}

void keypad_screen(const Stage& s) {
  clock_text(s);
  for (int i = 0; i < 12; ++i) {
    if (i % 3 != 0) ImGui::SameLine();
    ImGui::PushID(i);
    ImGui::Button(i < 10 ? std::to_string(i).c_str() : "OK", ImVec2(400, 110));
    ImGui::PopID();
  }
}

// A hundred colonies on a map and twelve countdown bars beside it.
void busy_screen(const Stage& s) {
  ImDrawList& list = *ImGui::GetWindowDrawList();
  for (int i = 0; i < 100; ++i) {
    const ImVec2 a(20 + static_cast<float>(i % 10) * 78, 20 + static_cast<float>(i / 10) * 76);
    list.AddRectFilled(a, ImVec2(a.x + 70, a.y + 68), IM_COL32(40, 70, 60, 255), 8);
    list.AddRect(a, ImVec2(a.x + 70, a.y + 68), IM_COL32(220, 220, 220, 255), 8, 0, 3);
    list.AddText(s.fonts.body, s.fonts.body->FontSize, ImVec2(a.x + 8, a.y + 8),
                 IM_COL32(255, 255, 255, 255), std::to_string(i).c_str());
    list.AddCircleFilled(ImVec2(a.x + 55, a.y + 52), 7, IM_COL32(240, 190, 60, 255));
  }
  const bool tall = s.display.height_px() > s.display.width_px();
  for (int i = 0; i < 12; ++i) {
    const float n = static_cast<float>(i);
    ImGui::SetCursorPos(tall ? ImVec2(20, 800 + n * 38) : ImVec2(840, 20 + n * 62));
    ImGui::ProgressBar(static_cast<float>((s.second + i * 37) % 600) / 600,
                       ImVec2(420, tall ? 34.0f : 50.0f), std::to_string(s.second + i).c_str());
  }
}

using Screen = void (*)(const Stage&);

const ImDrawData& build(const Stage& s, Screen screen) {
  ImGuiIO& io = ImGui::GetIO();
  io.DisplaySize =
      ImVec2(static_cast<float>(s.display.width_px()), static_cast<float>(s.display.height_px()));
  io.DeltaTime = 1.0f / 60;
  ImGui::NewFrame();
  ImGui::SetNextWindowPos(ImVec2(0, 0));
  ImGui::SetNextWindowSize(io.DisplaySize);
  ImGui::Begin("screen", nullptr, ImGuiWindowFlags_NoDecoration);
  ImGui::PushFont(s.fonts.large);
  screen(s);
  ImGui::PopFont();
  ImGui::End();
  ImGui::Render();
  return *ImGui::GetDrawData();
}

class Median {
 public:
  void time(const std::function<void()>& act) {
    const double start = used_us();
    act();
    add(used_us() - start);
  }
  void add(double value) { values_.push_back(value); }
  [[nodiscard]] double get() {
    const auto middle = values_.begin() + static_cast<std::ptrdiff_t>(values_.size() / 2);
    std::nth_element(values_.begin(), middle, values_.end());
    return *middle;
  }

 private:
  std::vector<double> values_;
};

void measure(Stage& s, const std::string& name, Screen screen, int frames) {
  Median building, hashing, flattening, diffing, full, partial, share;
  const ui::Box all{0, 0, s.display.width_px(), s.display.height_px()};
  std::vector<ui::Patch> before, after;
  const ImDrawData* frame = nullptr;
  for (int i = 0; i < frames; ++i, ++s.second) {
    building.time([&] { frame = &build(s, screen); });
    hashing.time([&] { static_cast<void>(ui::hash_of(*frame)); });
    std::swap(before, after);
    flattening.time([&] { ui::flatten(*frame, all, after); });
    diffing.time([&] { static_cast<void>(ui::changed(before, after, all)); });
    ui::DrawStats stats;
    partial.time([&] { stats = s.display.draw(*frame); });
    if (i > 1) share.add(stats.share * 100);
    s.display.redraw_all();
    full.time([&] { s.display.draw(*frame); });
  }
  std::printf("%-7s %4dx%-4d %7.0f %7.0f %8.0f %7.0f %9.0f %9.0f %7.1f\n", name.c_str(), all.x1,
              all.y1, building.get(), hashing.get(), flattening.get(), diffing.get(), full.get(),
              partial.get(), share.get());
}

void measure_size(int width_px, int height_px, int frames) {
  ImGui::CreateContext();
  ImGui::GetIO().IniFilename = nullptr;
  ImGui::GetStyle().FrameRounding = 0;
  ui::DisplayOptions options;
  options.width_px = width_px;
  options.height_px = height_px;
  {
    Stage s{or_exit(ui::Display::open_headless(options)), {}};
    ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
    s.fonts = or_exit(ui::build_fonts(atlas, s.display.px_per_mm(), or_exit(ui::find_face())));
    std::printf("atlas %dx%d, %.2f px/mm\n", atlas.TexWidth, atlas.TexHeight,
                static_cast<double>(s.display.px_per_mm()));
    if (!s.display.use_atlas(atlas).ok()) std::exit(1);
    measure(s, "walk", walk_screen, frames);
    measure(s, "keypad", keypad_screen, frames);
    measure(s, "busy", busy_screen, frames);
  }
  ImGui::DestroyContext();
}

}  // namespace

int main(int argc, char** argv) {
  const int frames = std::max(10, argc > 1 ? std::atoi(argv[1]) : 100);
  std::printf(
      "Medians of %d frames, microseconds of processor time; share is the part of the screen "
      "drawn.\n",
      frames);
  std::printf("%-7s %-9s %7s %7s %8s %7s %9s %9s %7s\n", "screen", "size", "build", "hash",
              "flatten", "diff", "full", "changed", "share%");
  measure_size(1280, 800, frames);
  measure_size(800, 1280, frames);
  measure_size(1920, 1200, frames);
  return 0;
}
